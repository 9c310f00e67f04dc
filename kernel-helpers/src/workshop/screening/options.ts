import { readFileSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { parseArgs } from "node:util";
import { checkRecords } from "../../records/records";
import { readTable } from "../../records/readTable";
import type { Schema } from "../../schema";
import { UsageError } from "../command";
import { messageOf } from "../failureText";
import { repositoryRoot } from "../notebookNames";
import { rangeRecord, speciesRecord } from "./plantRecord";
import type { Screening } from "./screening";
import { type RangeOf, type ScreenedSpecies, usualRanges } from "./settings";

/** What the command's words mean. */
export interface ScreeningOrder extends Screening {
  readonly settings: Screening["settings"];
}

const words = {
  species: { type: "string" },
  ranges: { type: "string" },
  out: { type: "string" },
  draws: { type: "string", default: "1000" },
  classes: { type: "string", default: "40" },
  seed: { type: "string", default: "1" },
  "plants-in-part": { type: "string", default: "100" },
  workers: { type: "string" },
  part: { type: "string" },
  merge: { type: "boolean", default: false },
} as const;

/** Returns what the command line asks for; paths are taken from where the person stood. Throws a `UsageError`. */
export async function readScreeningOrder(
  given: readonly string[],
  from = process.env["INIT_CWD"] ?? process.cwd(),
): Promise<ScreeningOrder> {
  const { positionals, values } = parsed(given);
  const [place, ...others] = positionals;
  if (place === undefined || others.length > 0) {
    throw new UsageError(
      place === undefined
        ? "No plants file is given."
        : `One plants file is screened at a time; ${positionals.length} are given.`,
    );
  }
  const plantsPath = resolve(from, place);
  const out = resolve(
    from,
    values.out ?? join(dirname(place), `${basename(place).replace(/\.csv$/i, "")}-screened.csv`),
  );
  if (!/\.(csv|parquet)$/i.test(out))
    throw new UsageError(`--out is "${out}"; its name must end in .csv or .parquet.`);
  if (out === plantsPath)
    throw new UsageError(`--out is the plants file itself, "${place}"; give another name.`);
  const share = values.part === undefined ? undefined : shareOf(values.part);
  if (share !== undefined && values.merge)
    throw new UsageError("--part and --merge exclude each other; merge once all parts are made.");
  return {
    plantsPath,
    place,
    out,
    settings: {
      seed: whole("seed", values.seed, 0, 2 ** 32 - 1),
      draws: whole("draws", values.draws, 1, 1_000_000),
      classes: whole("classes", values.classes, 1, 10_000),
      plantsInPart: whole("plants-in-part", values["plants-in-part"], 1, 100_000),
      ranges: await rangesOf(values.ranges === undefined ? undefined : resolve(from, values.ranges)),
      species: await speciesOf(
        values.species === undefined
          ? join(repositoryRoot, "data-demo", "species.csv")
          : resolve(from, values.species),
      ),
    },
    ...(values.workers === undefined ? {} : { workers: whole("workers", values.workers, 1, 1024) }),
    ...(share === undefined ? {} : { share }),
    mergeOnly: values.merge,
  };
}

function parsed(given: readonly string[]) {
  try {
    return parseArgs({ args: [...given], allowPositionals: true, options: words });
  } catch (cause) {
    throw new UsageError(messageOf(cause), { cause });
  }
}

function whole(name: string, text: string, atLeast: number, atMost: number): number {
  const value = /^\d+$/.test(text) ? Number(text) : Number.NaN;
  if (value >= atLeast && value <= atMost) return value;
  throw new UsageError(`--${name} is "${text}"; it must be a whole number from ${atLeast} to ${atMost}.`);
}

function shareOf(text: string): { readonly number: number; readonly of: number } {
  const [, number = "0", of = "0"] = /^(\d+)\/(\d+)$/.exec(text) ?? [];
  const share = { number: Number(number), of: Number(of) };
  if (share.number >= 1 && share.number <= share.of) return share;
  throw new UsageError(`--part is "${text}"; it must be like 2/8, the second of eight.`);
}

async function read<const S extends Schema>(path: string, schema: S) {
  let bytes;
  try {
    bytes = readFileSync(path);
  } catch (cause) {
    throw new UsageError(`${path} cannot be read: ${messageOf(cause)}.`, { cause });
  }
  return checkRecords(await readTable(bytes, path), schema).rows;
}

async function speciesOf(path: string): Promise<ScreenedSpecies[]> {
  return (await read(path, speciesRecord)).map((one) => ({
    species: one.species,
    bodyRatio: one.turnsOnSide === "yes" ? one.widthRatio : one.heightRatio,
    medianLength: one.medianLength,
    lengthSpread: one.lengthSpread,
  }));
}

/** Above these no number makes sense: a share, and a threshold at which the ramp would end before it began. */
const mostOf: Readonly<Record<keyof RangeOf, number>> = {
  threshold: 0.99,
  exponent: 100,
  correlation: 1,
  protectedSurvival: 1,
  bodyFactor: 10,
};

async function rangesOf(path: string | undefined): Promise<RangeOf> {
  if (path === undefined) return usualRanges;
  const rows = await read(path, rangeRecord);
  for (const { number, lowest, highest } of rows) {
    if (!(lowest <= highest && highest <= mostOf[number])) {
      throw new UsageError(
        `${path}: ${number} is drawn from ${lowest} to ${highest}; lowest may not lie above highest, and highest not above ${mostOf[number]}.`,
      );
    }
  }
  return {
    ...usualRanges,
    ...Object.fromEntries(rows.map(({ number, lowest, highest }) => [number, [lowest, highest]])),
  };
}
