/** Files that stand there whole or not at all. */
import { closeSync, fsyncSync, openSync, readdirSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { hostname } from "node:os";
import { basename, dirname, join } from "node:path";
import { messageOf } from "../failureText";

/** What the name of a file ends in while it is written. */
const ending = ".unfinished";

/**
 * Writes a file through another name: whoever stops this, or fills the disk, leaves no half of it.
 *
 * `write` fills the file behind the name that it is given. Throws a `DiskError` where the disk takes no more.
 */
export async function writeWhole(
  path: string,
  write: (unfinished: string) => void | Promise<void>,
): Promise<void> {
  // Nodes of a cluster share the folder, and their processes may have equal numbers.
  const unfinished = `${path}.${hostname()}-${process.pid}${ending}`;
  try {
    await write(unfinished);
    const file = openSync(unfinished, "r+");
    try {
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(unfinished, path);
  } catch (error) {
    rmSync(unfinished, { force: true });
    throw diskError(path, error);
  }
}

/** Takes away what a process that was killed has left of a file. */
export function removeUnfinished(path: string): void {
  const name = basename(path);
  for (const one of readdirSync(dirname(path))) {
    if (one.startsWith(`${name}.`) && one.endsWith(ending)) rmSync(join(dirname(path), one), { force: true });
  }
}

/** Writes a text that fits into memory. */
export const writeText = (path: string, text: string): Promise<void> =>
  writeWhole(path, (unfinished) => writeFileSync(unfinished, text, "utf8"));

/** The disk takes no more; nothing half-written is left. */
export class DiskError extends Error {}

const sentences: Readonly<Record<string, string>> = {
  ENOSPC: "the disk is full",
  EDQUOT: "your share of the disk is used up",
  EFBIG: "the file may not grow so large",
  EROFS: "the disk is read-only",
  EACCES: "you may not write there",
};

/** Says in a sentence what the disk refused; any other error as it is. */
export function diskError(path: string, error: unknown): unknown {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  if (!Object.hasOwn(sentences, code)) return error;
  return new DiskError(
    `${path} could not be written: ${sentences[code]} (${messageOf(error)}). What is done stays; make room and give the ` +
      "same command again, it goes on from there.",
    { cause: error },
  );
}
