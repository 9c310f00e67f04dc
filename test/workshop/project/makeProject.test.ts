import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { efficiencyRecord, migrationRecord } from "../../../kernel-helpers/src/energy";
import { lengthRecord } from "../../../kernel-helpers/src/fish";
import { checkRecords } from "../../../kernel-helpers/src/records/records";
import { readTable } from "../../../kernel-helpers/src/records/readTable";
import { dailyFlow } from "../../../kernel-helpers/src/river";
import type { Schema } from "../../../kernel-helpers/src/schema";
import { runRecord } from "../../../kernel-helpers/src/trial";
import { makeNew } from "../../../kernel-helpers/src/workshop/new";
import { codeCells, readNotebook, sourceText } from "../../../kernel-helpers/src/workshop/notebookFile";
import { repositoryRoot } from "../../../kernel-helpers/src/workshop/notebookNames";
import { makeProject, recordFiles } from "../../../kernel-helpers/src/workshop/project/makeProject";
import { temporaryFolder } from "../tinyNotebooks";

let root: string;
let projects: string;

beforeAll(() => {
  root = temporaryFolder();
  projects = join(root, "notebooks", "projects");
  for (const path of ["notebooks/17-design-note.ipynb", "notebooks/projects/example/trial.ipynb"])
    cpSync(join(repositoryRoot, path), join(root, path));
  mkdirSync(join(root, "data-demo"));
  for (const record of recordFiles)
    cpSync(join(repositoryRoot, "data-demo", `${record}.csv`), join(root, "data-demo", `${record}.csv`));
});
afterAll(() => rmSync(root, { recursive: true }));

describe("npm run new", () => {
  test("makes a folder with note, trial, an example of every record and a page that says what is what", () => {
    const files = makeProject("my-plant", root);
    expect(readdirSync(join(projects, "my-plant")).toSorted()).toEqual([...files].toSorted());
    expect(files).toEqual(
      expect.arrayContaining(["design-note.ipynb", "trial.ipynb", "daily-flow.example.csv", "README.md"]),
    );
    // Others who work on the plant can read it, as any folder made here.
    expect(statSync(join(projects, "my-plant")).mode & 0o777).toBe(statSync(projects).mode & 0o777);
  });

  test("names the note after the project and begins it without exercises and without another plant's results", () => {
    const note = readNotebook(join(projects, "my-plant", "design-note.ipynb"));
    const text = note.cells.map(sourceText).join("\n");
    expect(text).toMatch(/^# Design note\n/);
    expect(text).toContain('const project = "my-plant";');
    expect(text).toContain("`projects/my-plant/daily-flow.csv`");
    expect(text).not.toMatch(/exercise|Your turn|projects\/NAME/);
    expect(codeCells(note).flatMap((cell) => cell.outputs)).toEqual([]);
  });

  test("begins the trial on the course's record, and says where the project's own goes", () => {
    const trial = readNotebook(join(projects, "my-plant", "trial.ipynb"));
    const text = trial.cells.map(sourceText).join("\n");
    expect(text).toContain('const trialFile = "trial-runs.csv";');
    expect(text).toContain("`projects/my-plant/trial-runs.csv`");
    expect(text).not.toContain("example/");
  });

  test.each<[(typeof recordFiles)[number], Schema]>([
    ["daily-flow", dailyFlow],
    ["efficiency", efficiencyRecord],
    ["fish-lengths", lengthRecord],
    ["migration-timing", migrationRecord],
    ["trial-runs", runRecord],
  ])("gives %s.example.csv its heads and one row that meets them", async (record, schema) => {
    const file = join(projects, "my-plant", `${record}.example.csv`);
    const table = await readTable(readFileSync(file), file, {});
    expect(checkRecords(table, schema).rows).toHaveLength(1);
  });

  test("refuses a project that exists and leaves it as it is", () => {
    const before = readFileSync(join(projects, "my-plant", "design-note.ipynb"), "utf8");
    expect(() => makeProject("my-plant", root)).toThrow("notebooks/projects/my-plant exists already");
    expect(() => makeProject("example", root)).toThrow("exists already");
    expect(readFileSync(join(projects, "my-plant", "design-note.ipynb"), "utf8")).toBe(before);
  });

  test.each(["", "My Plant", "../x", "a/b", ".hidden", "-x", "x-", "a--b", "1a", "a".repeat(41), "ä"])(
    "refuses the name %j, saying what is allowed",
    (name) => {
      expect(() => makeProject(name, root)).toThrow(`The name is "${name}"; it must be small letters`);
    },
  );

  test("refuses a command line without a name, or with two", () => {
    expect(() => makeNew([], root)).toThrow("No name is given.");
    expect(() => makeNew(["a", "b"], root)).toThrow("2 names are given");
    expect(() => makeNew(["--force", "a"], root)).toThrow("--force");
  });

  test("leaves nothing where it fails half-way", () => {
    rmSync(join(root, "data-demo", "trial-runs.csv"));
    expect(() => makeProject("other", root)).toThrow("trial-runs.csv");
    expect(existsSync(join(projects, "other"))).toBe(false);
    expect(readdirSync(projects).toSorted()).toEqual(["example", "my-plant"]);
  });
});
