import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, expect, test, vi } from "vitest";
import { readOrder, writeNote } from "../../kernel-helpers/src/workshop/note";
import { notebookFile, temporaryFolder } from "./tinyNotebooks";

let root: string;
let project: string;

beforeAll(() => {
  root = temporaryFolder();
  project = join(root, "notebooks", "projects", "my-plant");
  mkdirSync(project, { recursive: true });
  mkdirSync(join(root, "notebooks", "projects", "empty"));
  notebookFile(project, "design-note", ["console.log(20 + 22)"]);
  notebookFile(project, "trial", ["console.log(1)"]);
  notebookFile(join(root, "notebooks"), "18-guideline", ["console.log(2)"]);
});
afterAll(() => rmSync(root, { recursive: true }));
afterEach(() => vi.restoreAllMocks());

const quiet = () => ({
  out: vi.spyOn(console, "log").mockImplementation(() => undefined),
  faults: vi.spyOn(console, "error").mockImplementation(() => undefined),
});
const write = (name: string): Promise<number> =>
  writeNote(readOrder([name], root), new AbortController().signal);

test("a project's name means its design note, whose page lies beside it", () => {
  expect(readOrder(["my-plant"], root)).toMatchObject({
    path: join(project, "design-note.ipynb"),
    target: join(project, "design-note.html"),
    name: "my-plant",
  });
  expect(readOrder(["projects/my-plant"], root).path).toBe(join(project, "design-note.ipynb"));
});

test("other notebooks print too: a project's beside it, the course's below build/", () => {
  expect(readOrder(["projects/my-plant/trial"], root).target).toBe(join(project, "trial.html"));
  expect(readOrder(["18"], root).target).toBe(join(root, "build", "notes", "18-guideline.html"));
});

test("a command line that means nothing is refused in a sentence", () => {
  expect(() => readOrder([], root)).toThrow("No project is named.");
  expect(() => readOrder(["a", "b"], root)).toThrow("2 projects are named");
  expect(() => readOrder(["nowhere"], root)).toThrow('There is no notebook "nowhere"');
  expect(() => readOrder(["my-plant", "--timeout", "0"], root)).toThrow('--timeout is "0"');
});

test("the note is run before it is written, and says where it is", async () => {
  const { out } = quiet();
  expect(await write("my-plant")).toBe(0);
  expect(readFileSync(join(project, "design-note.html"), "utf8")).toContain('<pre class="printed">42</pre>');
  expect(out.mock.lastCall?.[0]).toContain("design-note.html");
});

test("a note that fails is not written, the last one stays, and the cell is named", async () => {
  const { faults } = quiet();
  notebookFile(project, "design-note", ['throw new Error("the spacing is -5 mm")']);
  writeFileSync(join(project, "design-note.html"), "the last one");
  expect(await write("my-plant")).toBe(1);
  expect(readFileSync(join(project, "design-note.html"), "utf8")).toBe("the last one");
  expect(faults.mock.calls.flat().join("\n")).toMatch(/cell 1: .*the spacing is -5 mm/);
  expect(existsSync(join(project, `design-note.html.${process.pid}.unfinished`))).toBe(false);
});
