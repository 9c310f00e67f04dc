import { expect, test } from "vitest";
import { checkStored } from "../../kernel-helpers/src/workshop/golden";
import { courseNotebooks, notebookName } from "../../kernel-helpers/src/workshop/notebookNames";
import { runNotebooks } from "../../kernel-helpers/src/workshop/runMany";

test(
  "every notebook and every solution runs clean in the kernel and gives its stored outputs",
  { timeout: 600_000 },
  async () => {
    const runs = await runNotebooks(courseNotebooks(), {});
    expect(runs.length).toBeGreaterThan(0);
    const complaints = runs.flatMap((run) => [
      ...run.failures.map(({ cell, message }) => `${notebookName(run.path)}, cell ${cell}: ${message}`),
      ...checkStored(run).map((difference) => `${notebookName(run.path)}, ${difference}`),
    ]);
    expect(complaints).toEqual([]);
  },
);
