import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { jupyterCommand, writeKernelSpecification } from "../../kernel-helpers/src/workshop/jupyter";
import { repositoryRoot } from "../../kernel-helpers/src/workshop/notebookNames";
import { hasChromium, startChromium, watchedPage } from "./chromium";
import { requireOnCI } from "./requireOnCI";

const hasNotebook = requireOnCI(
  "Jupyter Notebook",
  spawnSync("jupyter-notebook", ["--version"], { stdio: "ignore" }).status === 0,
);

const name = "12-survival-by-size-class.ipynb";

const freePort = (): Promise<number> =>
  new Promise((resolve, reject) => {
    const probe = createServer().once("error", reject);
    probe.listen(0, "127.0.0.1", () => {
      const address = probe.address();
      probe.close(() =>
        address !== null && typeof address === "object"
          ? resolve(address.port)
          : reject(new Error("no port")),
      );
    });
  });

/** Runs what Jupyter's own page offers to scripts; the page's objects are known at run time only. */
const inJupyter = <T>(page: Page, script: string): Promise<T> => page.evaluate(script);

const idle = (page: Page): Promise<unknown> =>
  page.waitForFunction(
    "window.Jupyter && Jupyter.notebook && Jupyter.notebook.kernel && Jupyter.notebook.kernel.is_connected() && !Jupyter.notebook.kernel_busy",
    undefined,
    { timeout: 60_000 },
  );

const minimumTable = (page: Page): Promise<string> =>
  page.locator("table", { hasText: "Local minima of total survival" }).first().innerText();

const runAll = async (page: Page): Promise<void> => {
  await inJupyter(page, "Jupyter.notebook.execute_all_cells()");
  const done =
    "Jupyter.notebook.get_cells().filter((cell) => cell.cell_type === 'code').every((cell) => !cell.element.hasClass('running') && cell.input_prompt_number !== '*')";
  await page.waitForFunction(done, undefined, { timeout: 120_000 });
  await idle(page);
};

/** The numbers in the last line of a table. */
const numbers = (text: string): number[] =>
  (text.split("\n").at(-1) ?? "").match(/[\d.]+/g)?.map(Number) ?? [];

describe.runIf(hasNotebook && hasChromium)("notebook 12 in Jupyter Notebook", { timeout: 240_000 }, () => {
  let folder: string;
  let server: ChildProcess;
  let browser: Browser;
  let address: string;
  let said = "";

  beforeAll(async () => {
    // A copy, so that what a reader's browser saves does not land in the repository.
    folder = mkdtempSync(join(tmpdir(), "bar-rack-notebook-"));
    mkdirSync(join(folder, "notebooks"));
    cpSync(join(repositoryRoot, "notebooks", name), join(folder, "notebooks", name));
    for (const shared of ["node_modules", "data-demo"])
      symlinkSync(join(repositoryRoot, shared), join(folder, shared));
    const port = await freePort();
    const token = "for-this-test-alone";
    const [program = "", ...words] = jupyterCommand(
      { command: ["jupyter-notebook"], kind: "notebook" },
      folder,
      ["--no-browser", "--allow-root", `--port=${port}`, `--NotebookApp.token=${token}`],
    );
    server = spawn(program, words, {
      cwd: folder,
      env: { ...process.env, JUPYTER_PATH: writeKernelSpecification(), HOME: folder },
      stdio: ["ignore", "ignore", "pipe"],
    });
    server.stderr?.on("data", (chunk: Buffer) => {
      said += chunk.toString();
    });
    address = `http://127.0.0.1:${port}/notebooks/notebooks/${name}?token=${token}`;
    for (let tries = 0; ; tries++) {
      try {
        if ((await fetch(address)).ok) break;
      } catch (error) {
        // The server takes a moment to listen.
        if (tries > 150) throw new Error(`Jupyter Notebook did not answer: ${said}`, { cause: error });
      }
      await new Promise((resolve) => setTimeout(resolve, 200));
    }
    browser = await startChromium();
  }, 120_000);

  afterAll(async () => {
    await browser?.close();
    server?.kill("SIGTERM");
    await new Promise((resolve) => server?.once("exit", resolve));
    rmSync(folder, { recursive: true });
  });

  test("run all, change the spacing from 18 to 12 mm, run on: the minimum moves to shorter fish and shrinks, figures respond", async () => {
    const { page, escapes } = await watchedPage(await browser.newContext());
    await page.goto(address);
    await idle(page);
    await runAll(page);
    const before = await minimumTable(page);
    expect(await page.locator("figure .js-plotly-plot").count()).toBeGreaterThanOrEqual(3);
    await inJupyter(
      page,
      "Jupyter.notebook.get_cells().filter((cell) => cell.get_text().includes('const clearSpacing = u.mm(18)')).forEach((cell) => cell.set_text(cell.get_text().replace('u.mm(18);', 'u.mm(12);')))",
    );
    await runAll(page);
    const after = await minimumTable(page);
    const [lengthBefore, , , depthBefore] = numbers(before);
    const [lengthAfter, , , depthAfter] = numbers(after);
    expect(lengthAfter).toBeLessThan(lengthBefore);
    expect(depthAfter).toBeLessThan(depthBefore);
    expect(escapes).toEqual([]);
    expect(await page.locator(".output_stderr, .output_error").count()).toBe(0);
  });

  test("a unit mistake is explained at its cell, with the remedy", async () => {
    const { page } = await watchedPage(await browser.newContext());
    await page.goto(address);
    await idle(page);
    await inJupyter(
      page,
      "Jupyter.notebook.get_cells().filter((cell) => cell.get_text().includes('const clearSpacing = u.mm(')).forEach((cell) => cell.set_text(cell.get_text().replace(/const clearSpacing = u\\.mm\\(\\d+\\)/, 'const clearSpacing = u.deg(18)')))",
    );
    await runAll(page);
    const errors = await page.locator(".output_stderr").allInnerTexts();
    expect(errors.join("\n")).toContain("a length: u.m(…), u.cm(…) or u.mm(…)");
  });
});
