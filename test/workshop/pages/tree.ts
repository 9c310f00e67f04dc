import { JSDOM } from "jsdom";
import type { Cell } from "../../../kernel-helpers/src/workshop/notebookFile";
import { coursePages, type CourseNotebook } from "../../../kernel-helpers/src/workshop/pages/course";
import { pageHtml } from "../../../kernel-helpers/src/workshop/pages/shell";
import { courseNotebook } from "../fixtures/course";

/** The pages of a course by file name, as a browser would see them without running scripts. */
export function pagesOf(notebooks: readonly CourseNotebook[]): Map<string, Document> {
  const pages = coursePages({ notebooks, formulas: [], readme: undefined });
  return new Map(pages.map((page) => [page.file, new JSDOM(pageHtml(page)).window.document]));
}

/** The page of one notebook with these cells. */
export function pageOf(...cells: Cell[]): Document {
  const page = pagesOf([courseNotebook("07-a-notebook", ...cells)]).get("07-a-notebook.html");
  if (page === undefined) throw new Error("The notebook has no page.");
  return page;
}
