/** The course as a folder of pages that a browser opens from disk or from a server. */
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { AnyFormula } from "../../formula/catalogue";
import { writeAssets } from "./assets";
import { formulaSheet } from "./formulaSheet";
import { indexPage } from "./indexPage";
import { type CourseNotebook, notebookPage, summarise } from "./notebookPage";
import { type Page, pageHtml, type PageLink } from "./shell";

export type { CourseNotebook } from "./notebookPage";

export interface Course {
  /** In reading order. */
  readonly notebooks: readonly CourseNotebook[];
  readonly formulas: readonly AnyFormula[];
  /** The project's README, for the first page; undefined where there is none. */
  readonly readme: string | undefined;
}

/** Returns every page of the course: the index, one a notebook in reading order, the formula sheet. */
export function coursePages({ notebooks, formulas, readme }: Course): readonly Page[] {
  const summaries = notebooks.map(summarise);
  const files = new Set(summaries.map(({ file }) => file));
  const ids = new Set(formulas.map(({ id }) => id));
  const index = indexPage(notebooks, readme);
  const sheet = formulaSheet(formulas);
  const ring: PageLink[] = [{ file: index.file, titleHtml: "Contents" }, ...summaries, sheet];
  return [index, ...notebooks.map((notebook) => notebookPage(notebook, files, ids)), sheet].map((page, at) =>
    page === index ? page : { ...page, previous: ring[at - 1], next: ring[at + 1] },
  );
}

/**
 * Writes the course's pages into `folder`, which holds nothing else: a page that no longer exists goes.
 *
 * Returns the names of the pages.
 */
export function writeCourse(folder: string, course: Course): readonly string[] {
  const pages = coursePages(course);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  writeAssets(join(folder, "assets"));
  for (const page of pages) writeFileSync(join(folder, page.file), pageHtml(page));
  return pages.map(({ file }) => file);
}
