import { closeSync, openSync, readFileSync, writeSync } from "node:fs";
import { removeUnfinished, writeWhole } from "./disk";
import { partPath } from "./parts";
import { resultHeads } from "./resultText";

/** Parts whose rows make one group of a Parquet file: as many as memory hardly notices. */
const rowsInGroup = 50_000;

/** Joins the parts in their order into one CSV or Parquet file, by the ending of its name. */
export async function joinParts(folder: string, parts: number, out: string): Promise<void> {
  removeUnfinished(out);
  await writeWhole(out, (unfinished) =>
    out.toLowerCase().endsWith(".parquet")
      ? joinParquet(folder, parts, unfinished)
      : joinCsv(folder, parts, unfinished),
  );
}

function joinCsv(folder: string, parts: number, path: string): void {
  const file = openSync(path, "w");
  try {
    writeSync(file, `${resultHeads.join(",")}\n`);
    for (let index = 0; index < parts; index++) {
      const bytes = readFileSync(partPath(folder, index));
      // A disk that is nearly full takes the first bytes and refuses the rest at the next call.
      for (let at = 0; at < bytes.length;) at += writeSync(file, bytes, at);
    }
  } finally {
    closeSync(file);
  }
}

async function joinParquet(folder: string, parts: number, path: string): Promise<void> {
  const { fileWriter, ParquetWriter } = await import("hyparquet-writer");
  const schema = [
    { name: "root", num_children: resultHeads.length },
    ...resultHeads.map((name, at) =>
      at < 2
        ? ({ name, type: "BYTE_ARRAY", converted_type: "UTF8", repetition_type: "REQUIRED" } as const)
        : ({ name, type: "DOUBLE", repetition_type: "REQUIRED" } as const),
    ),
  ];
  const parquet = new ParquetWriter({ writer: fileWriter(path), schema, createdBy: "bar-rack-notebooks" });
  let rows: string[][] = [];
  const flush = async (): Promise<void> => {
    const columnData = resultHeads.map((name, at) => {
      const cells = rows.map((row) => row[at]);
      return { name, data: at < 2 ? cells : Float64Array.from(cells, Number) };
    });
    await parquet.write({ columnData, rowGroupSize: rowsInGroup });
    rows = [];
  };
  for (let index = 0; index < parts; index++) {
    for (const row of cellsOf(readFileSync(partPath(folder, index), "utf8"))) rows.push(row);
    if (rows.length >= rowsInGroup) await flush();
  }
  if (rows.length > 0) await flush();
  await parquet.finish();
}

/** The cells of our own CSV: names may be quoted and hold anything, line breaks too. */
function* cellsOf(text: string): Generator<string[]> {
  const cell = /("(?:[^"]|"")*"|[^,\n]*)(,|\n)/y;
  let row: string[] = [];
  for (let found = cell.exec(text); found !== null; found = cell.exec(text)) {
    const [, written, end] = found;
    row.push(written.startsWith('"') ? written.slice(1, -1).replaceAll('""', '"') : written);
    if (end === ",") continue;
    yield row;
    row = [];
  }
}
