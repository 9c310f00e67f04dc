import { codeCells, type Notebook } from "../notebookFile";
import { plotlyType, type StillPicture, stillPicture } from "./figure";

/** Whether a notebook is the one that shows total survival by size class. */
export const isSurvivalNotebook = (name: string): boolean => name === "12-survival-by-size-class";

/** Returns the picture that says most about the course, total survival for several spacings, if the notebook has it. */
export function survivalPicture(notebook: Notebook): StillPicture | undefined {
  return codeCells(notebook)
    .flatMap(({ outputs }) => outputs)
    .flatMap((output) =>
      "data" in output && output.data[plotlyType] !== undefined ? (stillPicture(output.data) ?? []) : [],
    )
    .find(({ alt }) => alt.startsWith("Total survival against"));
}
