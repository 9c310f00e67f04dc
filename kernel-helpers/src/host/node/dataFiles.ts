import { existsSync, readdirSync } from "node:fs";
import { readdir, readFile } from "node:fs/promises";
import { dirname, join, relative } from "node:path";
import type { FoundFile } from "../host";

/**
 * Finds a data file: first beside the notebook (the working folder), then in the nearest `data-demo` above it that holds
 * tables. A name such as `projects/my-plant/trial.csv` is looked for from the notebook's folder upwards.
 *
 * Returns its bytes and its place. Throws an Error that says where it looked and which files there are.
 */
export async function findDataFile(name: string): Promise<FoundFile> {
  const { folder, file } = partsOf(name);
  const folders =
    folder === undefined
      ? [process.cwd(), ...demoFolderAbove(process.cwd())]
      : projectFolders(process.cwd(), folder);
  for (const candidate of folders) {
    const path = join(candidate, file);
    if (existsSync(path)) {
      return {
        place: relative(process.cwd(), path).replaceAll("\\", "/") || name,
        bytes: await readFile(path),
      };
    }
  }
  if (folders.length === 0)
    throw new Error(
      `readRecords: there is no folder "${folder}" in ${process.cwd()} or above it. Make notebooks/${folder} and put the file there.`,
    );
  const there = (await Promise.all(folders.map((candidate) => readdir(candidate)))).flat();
  const tables = there.filter(isTable).toSorted();
  throw new Error(
    `readRecords: there is no file "${file}" in ${folders.join(" or ")}. ` +
      (tables.length > 0 ? `There are ${tables.join(", ")}.` : "There are no CSV or XLSX files."),
  );
}

/** A file's name alone, or `projects/NAME/` before it: a notebook reaches its own folder, the demo's and the projects. */
function partsOf(name: string): { readonly folder: string | undefined; readonly file: string } {
  const [, folder, file] = /^(projects\/[^\\/]+\/)?([^\\/]+)$/.exec(name) ?? [];
  if (file === undefined || file.startsWith(".") || folder?.startsWith("projects/.")) {
    throw new Error(
      `readRecords: "${name}" must be a file's name, such as "daily-flow.csv", or a file in a project's folder, such as ` +
        '"projects/my-plant/trial.csv".',
    );
  }
  return { folder: folder?.slice(0, -1), file };
}

function projectFolders(start: string, folder: string): string[] {
  for (let above = start; ; above = dirname(above)) {
    const candidate = join(above, folder);
    if (existsSync(candidate)) return [candidate];
    if (dirname(above) === above) return [];
  }
}

const isTable = (file: string): boolean => /\.(csv|xlsx)$/i.test(file);

function demoFolderAbove(start: string): string[] {
  for (let folder = start; ; folder = dirname(folder)) {
    const candidate = join(folder, "data-demo");
    if (existsSync(candidate) && readdirSync(candidate).some(isTable)) return [candidate];
    if (dirname(folder) === folder) return [];
  }
}
