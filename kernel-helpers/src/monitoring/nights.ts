import { refuse } from "../statistics/checks";
import type { CatchRow, Group, Net } from "./catchRecord";
import { grouped } from "./grouped";

/** Which rows of a catch record are meant; what is not given is not asked for. */
export interface CatchChoice {
  readonly plant?: string;
  readonly net?: Net;
  readonly group?: Group;
  readonly species?: string;
}

/** The rows that fit. */
export function chosen(rows: readonly CatchRow[], choice: CatchChoice): CatchRow[] {
  const { plant, net, group, species } = choice;
  return rows.filter(
    (row) =>
      (plant === undefined || row.plant === plant) &&
      (net === undefined || row.net === net) &&
      (group === undefined || row.group === group) &&
      (species === undefined || row.species === species),
  );
}

/** The rows that fit; refuses where there are none, naming what was asked for and what there is. */
export function someChosen(where: string, rows: readonly CatchRow[], choice: CatchChoice): CatchRow[] {
  const found = chosen(rows, choice);
  if (found.length > 0) return found;
  const asked = Object.entries(choice).flatMap(([name, value]) =>
    value === undefined ? [] : [`${name} "${String(value)}"`],
  );
  const names = (["plant", "net", "group", "species"] as const).map(
    (name) => `${name} ${[...new Set(rows.map((row) => row[name]))].join(", ")}`,
  );
  return refuse(
    where,
    rows.length === 0
      ? "there are no rows"
      : `no row has ${asked.join(" and ")}; the ${rows.length} rows have ${names.join("; ")}`,
  );
}

/** Rows by night and plant: what is drawn and counted as a whole. */
export const byNight = (rows: readonly CatchRow[]): Map<string, CatchRow[]> =>
  grouped(rows, ({ night, plant }) => `${night} ${plant}`);

export const sumOf = <T>(items: readonly T[], valueOf: (item: T) => number): number =>
  items.reduce((sum, item) => sum + valueOf(item), 0);

/** Fish alive when the net was emptied. */
export const aliveAtOnce = ({ caught, deadAtOnce }: CatchRow): number => caught - deadAtOnce;

/** Fish alive 96 hours later. */
export const aliveLater = (row: CatchRow): number => aliveAtOnce(row) - row.deadAfter96h;
