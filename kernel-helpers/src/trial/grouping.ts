import { formatNumber } from "../quantity/format";
import { refuse } from "../statistics/checks";

/** How fish are put into groups: columns by name, or a function that names the group of a fish. */
export type Grouping<Fish> =
  (keyof Fish & string) | readonly (keyof Fish & string)[] | ((fish: Fish) => string | number);

/** Fish of one group, with the group's name. */
export interface Group<Fish> {
  readonly group: string;
  readonly fish: readonly Fish[];
}

/**
 * Puts fish into groups; one group of all without a grouping. Groups come in the order in which they first appear, or by
 * number where all their names begin with one: "12 mm" before "18 mm".
 *
 * The name of a group by several columns has their entries in order. Refuses a column that a fish has no entry in.
 */
export function groupsOf<Fish extends object>(
  where: string,
  fish: readonly Fish[],
  by: Grouping<Fish> | undefined,
): readonly Group<Fish>[] {
  if (by === undefined) return [{ group: "all fish", fish }];
  const nameOf = typeof by === "function" ? by : byColumns(where, typeof by === "string" ? [by] : by);
  const groups = new Map<string, Fish[]>();
  fish.forEach((one, at) => {
    const name = printed(nameOf(one, at));
    const group = groups.get(name);
    if (group === undefined) groups.set(name, [one]);
    else group.push(one);
  });
  const found = [...groups].map(([group, members]) => ({ group, fish: members }));
  const numbered = found.every(({ group }) => Number.isFinite(Number.parseFloat(group)));
  return numbered ? found.toSorted((a, b) => Number.parseFloat(a.group) - Number.parseFloat(b.group)) : found;
}

function byColumns<Fish extends object>(where: string, columns: readonly (keyof Fish & string)[]) {
  return (fish: Fish, at: number): string =>
    columns
      .map((column) => {
        const entry: unknown = fish[column];
        if (typeof entry !== "string" && typeof entry !== "number")
          return refuse(
            where,
            `fish[${at}] has no ${column} to group by; its columns are ${Object.keys(fish).join(", ")}`,
          );
        return printed(entry);
      })
      .join(", ");
}

const printed = (entry: string | number): string =>
  typeof entry === "number" ? formatNumber(entry, 6) : entry;
