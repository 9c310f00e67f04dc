import { shorten } from "../offence";
import { type Columns, columnNamed, keyOf, type Value } from "./columns";

interface Side {
  readonly columns: Columns;
  readonly count: number;
}

/** The columns of a frame with those of another looked up by the columns that both share. */
export function joinColumns(one: Side, other: Side, on: readonly string[]): Columns {
  if (on.length === 0) throw new Error("join was given no column to join on; it takes one or more.");
  const [ourKeys, theirKeys] = [one, other].map(({ columns }) =>
    on.map((name) => columnNamed(columns, name)),
  );
  const rowOfKey = new Map<string, number>();
  for (let row = 0; row < other.count; row++) {
    const key = keyOf(theirKeys, row);
    const earlier = rowOfKey.get(key);
    if (earlier !== undefined) {
      const entries = on.map((name, i) => `${name} ${shorten(String(theirKeys[i][row]))}`).join(", ");
      throw new Error(
        `join: ${entries} stands in rows ${earlier + 1} and ${row + 1} of the other frame; ` +
          "a frame to look things up in has each key once.",
      );
    }
    rowOfKey.set(key, row);
  }
  const theirNames = [...other.columns.keys()].filter((name) => !on.includes(name));
  const shared = theirNames.filter((name) => one.columns.has(name));
  if (shared.length > 0) {
    throw new Error(
      `join: both frames have a column ${shared.join(", ")}; join on it too, or rename it in one.`,
    );
  }

  const places = Array.from({ length: one.count }, (_, row) => rowOfKey.get(keyOf(ourKeys, row)));
  const result = new Map<string, readonly Value[]>(one.columns);
  for (const name of theirNames) {
    const column = columnNamed(other.columns, name);
    result.set(
      name,
      places.map((place) => (place === undefined ? undefined : column[place])),
    );
  }
  return result;
}
