/** README's picture is the figure stored in the notebook on survival by size class. */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { readNotebook } from "./notebookFile";
import { notebookName, repositoryRoot } from "./notebookNames";
import { isSurvivalNotebook, survivalPicture } from "./pages/survivalPicture";

/** Where README's picture lies. */
export const readmePicturePath = join(repositoryRoot, "notebooks", "pictures", "survival-by-size-class.svg");

/** Returns the drawing that README must show: the one stored in the notebook. Throws an Error where there is none. */
export function storedPicture(notebookPath: string): string {
  const [, drawing] =
    /^data:image\/svg\+xml;base64,(.+)$/.exec(survivalPicture(readNotebook(notebookPath))?.source ?? "") ??
    [];
  if (drawing === undefined) {
    throw new Error(
      `${notebookPath} holds no figure of total survival; README takes its picture from there.`,
    );
  }
  return `${Buffer.from(drawing, "base64").toString("utf8")}\n`;
}

/** Writes README's picture anew if this is the notebook it comes from. Returns whether it changed. */
export function refreshReadmePicture(notebookPath: string): boolean {
  if (!isSurvivalNotebook(notebookName(notebookPath))) return false;
  const drawing = storedPicture(notebookPath);
  if (existsSync(readmePicturePath) && readFileSync(readmePicturePath, "utf8") === drawing) return false;
  mkdirSync(dirname(readmePicturePath), { recursive: true });
  writeFileSync(readmePicturePath, drawing);
  return true;
}
