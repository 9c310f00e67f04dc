import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { diskError, writeText } from "./disk";

const settingsName = "settings.json";
const partName = /^part-(\d+)\.csv$/;

/** The folder that holds the parts of a result until they are joined. */
export const partsFolder = (out: string): string => `${out}.parts`;

export const partPath = (folder: string, index: number): string =>
  join(folder, `part-${String(index).padStart(6, "0")}.csv`);

/**
 * Makes the folder, or finds it as another run has left it.
 *
 * Returns the parts that are done. Throws an Error where the folder belongs to other plants or settings: the parts of two
 * screenings must not be joined.
 */
export async function openParts(folder: string, described: string): Promise<ReadonlySet<number>> {
  try {
    mkdirSync(folder, { recursive: true });
  } catch (error) {
    throw diskError(folder, error);
  }
  const settingsPath = join(folder, settingsName);
  if (!existsSync(settingsPath)) await writeText(settingsPath, described);
  else if (readFileSync(settingsPath, "utf8") !== described) {
    throw new Error(
      `${folder} holds parts of a screening with other plants or other settings (see ${settingsName} there). Take the ` +
        "folder away to begin anew, or give another --out.",
    );
  }
  return new Set(doneParts(folder));
}

/** The parts that are done, in no order. */
export const doneParts = (folder: string): number[] =>
  readdirSync(folder).flatMap((name) => {
    const [, index] = partName.exec(name) ?? [];
    return index === undefined ? [] : [Number(index)];
  });

export const removeParts = (folder: string): void => rmSync(folder, { recursive: true, force: true });
