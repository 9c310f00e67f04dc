/** A notebook by its second-level headings. */
import { type Cell, isCodeCell, type Notebook, sourceText } from "../notebookFile";

/** The cells from one second-level heading to the next; the first section has no title, and may have no cells. */
export interface Section {
  readonly title: string | undefined;
  readonly cells: readonly Cell[];
}

/** The section of exercises: for the reader of the course, not for a project. */
export const exercisesTitle = "Your turn";

/** The section that says what came out. */
export const resultTitle = "Result";

/** Returns the sections of a notebook in order. Only a heading that opens a cell begins one. */
export function sectionsOf({ cells }: Notebook): readonly Section[] {
  const sections: { title: string | undefined; cells: Cell[] }[] = [{ title: undefined, cells: [] }];
  for (const cell of cells) {
    const title = isCodeCell(cell) ? undefined : /^## +(.+?) *(?:\n|$)/.exec(sourceText(cell))?.[1];
    if (title !== undefined) sections.push({ title, cells: [] });
    sections[sections.length - 1].cells.push(cell);
  }
  return sections;
}

/** Returns the notebook without the course's exercises. */
export function withoutExercises(notebook: Notebook): Notebook {
  const cells = sectionsOf(notebook)
    .filter(({ title }) => title !== exercisesTitle)
    .flatMap((section) => section.cells);
  return { ...notebook, cells };
}

/** Returns Markdown without the quoted paragraphs that speak to whoever fills the note in. */
export function withoutInstructions(markdown: string): string {
  return markdown.replace(/^> \*\*Fill in\.\*\*.*(?:\n>.*)*(?:\n|$)/gm, "");
}
