import { existsSync, readdirSync } from "node:fs";
import { readdir, readFile } from "node:fs/promises";
import { dirname, join, relative } from "node:path";
import type { FoundFile } from "../host";

/**
 * Finds a data file: first beside the notebook (the working folder), then in the nearest `data-demo` above it that holds tables.
 *
 * Returns its bytes and its place. Throws an Error that says where it looked and which files there are.
 */
export async function findDataFile(name: string): Promise<FoundFile> {
  if (name === "" || /[\\/]/.test(name) || name.startsWith(".")) {
    throw new Error(`readRecords: "${name}" must be a file's name without folder, such as "daily-flow.csv".`);
  }
  const folders = [process.cwd(), ...demoFolderAbove(process.cwd())];
  for (const folder of folders) {
    const path = join(folder, name);
    if (existsSync(path)) {
      return {
        place: relative(process.cwd(), path).replaceAll("\\", "/") || name,
        bytes: await readFile(path),
      };
    }
  }
  const there = (await Promise.all(folders.map((folder) => readdir(folder)))).flat();
  const tables = there.filter(isTable).toSorted();
  throw new Error(
    `readRecords: there is no file "${name}" in ${folders.join(" or ")}. ` +
      (tables.length > 0 ? `There are ${tables.join(", ")}.` : "There are no CSV or XLSX files."),
  );
}

const isTable = (file: string): boolean => /\.(csv|xlsx)$/i.test(file);

function demoFolderAbove(start: string): string[] {
  for (let folder = start; ; folder = dirname(folder)) {
    const candidate = join(folder, "data-demo");
    if (existsSync(candidate) && readdirSync(candidate).some(isTable)) return [candidate];
    if (dirname(folder) === folder) return [];
  }
}
