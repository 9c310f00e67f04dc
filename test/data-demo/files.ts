import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const directory = new URL("../../data-demo/", import.meta.url);

/** The text of a file in data-demo/, as it stands. */
export function demoText(name: string): string {
  return readFileSync(fileURLToPath(new URL(name, directory)), "utf8");
}

/** A committed CSV file as rows of named cells. The demo files quote no cell, and that is checked here. */
export function demoRows(name: string): Record<string, string>[] {
  const text = demoText(name);
  if (text.includes('"')) throw new Error(`${name} has a quoted cell: this reader would split it.`);
  const [header, ...lines] = text.trimEnd().split("\n");
  const columns = header.split(",");
  return lines.map((line) => {
    const cells = line.split(",");
    if (cells.length !== columns.length) throw new Error(`${name}: "${line}" has ${cells.length} cells.`);
    return Object.fromEntries(columns.map((column, index) => [column, cells[index]]));
  });
}

/** Every table of a README section (the text under a `## ` heading): rows of trimmed cells, heading row first. */
export function readmeTables(section: string): string[][][] {
  const readme = demoText("README.md");
  const body = readme.split(/^## /m).find((part) => part.startsWith(`${section}\n`));
  if (body === undefined) throw new Error(`README.md has no section "${section}".`);
  const tables: string[][][] = [];
  let inside = false;
  for (const line of body.split("\n")) {
    if (!line.startsWith("|")) {
      inside = false;
      continue;
    }
    if (!inside) tables.push([]);
    inside = true;
    const cells = line.split("|").slice(1, -1);
    if (!cells.every((cell) => /^ ?:?-+:? ?$/.test(cell) && cell.includes("--"))) {
      tables[tables.length - 1].push(cells.map((cell) => cell.trim()));
    }
  }
  return tables;
}

/** A README cell without its code marks. */
export function plain(cell: string): string {
  return cell.replaceAll("`", "");
}
