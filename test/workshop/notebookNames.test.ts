import { mkdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import {
  courseNotebooks,
  findNotebooks,
  notebookName,
} from "../../kernel-helpers/src/workshop/notebookNames";
import { notebookFile, temporaryFolder } from "./tinyNotebooks";

let root: string;
const names = (...wanted: string[]): string[] =>
  findNotebooks(wanted, root, root).map((path) => notebookName(path, root));

beforeAll(() => {
  root = temporaryFolder();
  for (const name of [
    "04-head-loss",
    "00-start-here",
    "solutions/00-start-here",
    "projects/mill/12-survival",
    "projects/mill/04-loss",
  ]) {
    mkdirSync(join(root, "notebooks", name, ".."), { recursive: true });
    notebookFile(join(root, "notebooks"), name, []);
  }
  notebookFile(root, "own", []);
});

afterAll(() => rmSync(root, { recursive: true }));

test("without names, the course is meant: in reading order, then the solutions, without projects", () => {
  expect(names()).toEqual(["00-start-here", "04-head-loss", "solutions/00-start-here"]);
  expect(courseNotebooks(join(root, "nothing here"))).toEqual([]);
});

test("a notebook is found by number, name, solution and path", () => {
  expect(names("04")).toEqual(["04-head-loss"]);
  expect(names("00")).toEqual(["00-start-here"]);
  expect(names("00-start-here", "00")).toEqual(["00-start-here"]);
  expect(names("solutions/00")).toEqual(["solutions/00-start-here"]);
  expect(names("notebooks/04-head-loss.ipynb", "04-head-loss.ipynb")).toEqual(["04-head-loss"]);
  expect(names("own.ipynb")).toEqual(["own"]);
  expect(findNotebooks(["../own.ipynb"], root, join(root, "notebooks"))).toEqual([join(root, "own.ipynb")]);
});

test("an adapted copy is found by name only", () => {
  expect(names("projects/mill")).toEqual(["projects/mill/04-loss", "projects/mill/12-survival"]);
  expect(names("projects/mill/12")).toEqual(["projects/mill/12-survival"]);
});

test("a name that means nothing is answered with what is allowed", () => {
  for (const name of ["99", "0", "start", "projects", "none.ipynb"]) {
    expect(() => names(name)).toThrow(
      `There is no notebook "${name}". Allowed are a number such as 00, the path of an .ipynb file, or: ` +
        "00-start-here, 04-head-loss, solutions/00-start-here, projects/mill/04-loss, projects/mill/12-survival.",
    );
  }
});
