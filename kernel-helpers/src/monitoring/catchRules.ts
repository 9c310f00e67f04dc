import { format } from "../quantity/format";
import { u } from "../quantity/u";
import type { RowFault, RowRule, RowsRule, Rule } from "../schema";
import type { CatchRow } from "./catchRecord";
import type { MonitoredPlant } from "./plants";

/** A turbine may swallow a little more than its full flow, and a gauge may err; a slipped decimal point is more. */
const flowMargin = 1.05;

/** What must hold between the columns and the rows of a catch record. */
export function catchRules(plants: readonly MonitoredPlant[]): Rule<CatchRow>[] {
  const limitOf = new Map(plants.map(({ plant, fullFlow }) => [plant, flowMargin * fullFlow]));
  const tooMuch = ({ plant, turbineFlow }: CatchRow): boolean =>
    turbineFlow > (limitOf.get(plant) ?? Infinity);
  return [
    classBounds,
    classesAddUp,
    deadAtOnce,
    deadLater,
    releasedWhereDue,
    noMoreThanReleased,
    {
      columns: ["turbineFlow", "plant"],
      allowed: "no more than the full flow of the plant and 5 %",
      fault: (row) =>
        tooMuch(row)
          ? `the turbines of ${row.plant} take ${format(u.m3ps((limitOf.get(row.plant) ?? 0) / flowMargin), "m3ps")} at full flow; look for a slipped decimal point.`
          : undefined,
    },
    stoodStill,
    // What another rule tells already is not told again.
    sameInTheNight("turbineFlow", tooMuch),
    sameInTheNight("turbineLoad", (row) => isStill(row)),
    sameInTheNight("bypassFlow", () => false),
    oneCatchOnce,
  ];
}

const classBounds: RowRule<CatchRow> = {
  columns: ["lengthTo", "lengthFrom"],
  allowed: "above lengthFrom",
  fault: ({ lengthFrom, lengthTo }) =>
    lengthTo > lengthFrom
      ? undefined
      : `the class begins at ${format(lengthFrom, "mm")} and ends at ${format(lengthTo, "mm")}; correct one of the bounds.`,
};

const classesAddUp: RowRule<CatchRow> = {
  columns: ["uninjured", "lightlyInjured", "severelyInjured", "caught"],
  allowed: "uninjured, lightlyInjured and severelyInjured that add up to caught",
  fault({ uninjured, lightlyInjured, severelyInjured, caught }) {
    const sum = uninjured + lightlyInjured + severelyInjured;
    return sum === caught
      ? undefined
      : `the injury classes ${uninjured} + ${lightlyInjured} + ${severelyInjured} add up to ${sum}, and ${caught} were caught; one of the four is wrong.`;
  },
};

const deadAtOnce: RowRule<CatchRow> = {
  columns: ["deadAtOnce", "severelyInjured", "caught"],
  allowed: "no more than were caught, and no more than severelyInjured, where the dead are counted",
  fault: ({ deadAtOnce: dead, severelyInjured, caught }) =>
    dead > caught
      ? `${dead} were dead of ${caught} caught; correct one of the counts.`
      : dead > severelyInjured
        ? `${dead} were dead and ${severelyInjured} severely injured, dead ones included; correct one of the counts.`
        : undefined,
};

const deadLater: RowRule<CatchRow> = {
  columns: ["deadAfter96h", "deadAtOnce", "caught"],
  allowed: "no more than were alive in the net",
  fault({ deadAfter96h, deadAtOnce: dead, caught }) {
    const alive = caught - dead;
    return alive >= 0 && deadAfter96h > alive
      ? `${deadAfter96h} died later, and ${alive} of ${caught} were alive in the net; correct one of the counts.`
      : undefined;
  },
};

const releasedWhereDue: RowRule<CatchRow> = {
  columns: ["released", "group"],
  allowed: "a count for treated and control fish, an empty cell for wild ones",
  fault: ({ released, group }) =>
    group === "wild"
      ? released === undefined
        ? undefined
        : "wild fish are not released; empty the cell or correct the group."
      : released === undefined
        ? `${group} fish are released; say how many.`
        : undefined,
};

const noMoreThanReleased: RowRule<CatchRow> = {
  columns: ["released", "caught", "group"],
  allowed: "at least as many as were caught",
  fault: ({ released, caught, group }) =>
    group !== "wild" && released !== undefined && released < caught
      ? `${caught} were caught of ${released} released; correct one of the counts.`
      : undefined,
};

/** Control fish are put into the net itself: they say nothing about the turbine. */
const isStill = ({ net, group, caught, turbineLoad, turbineFlow }: CatchRow): boolean =>
  net === "turbine" && group !== "control" && caught > 0 && (turbineLoad === 0 || turbineFlow === 0);

const stoodStill: RowRule<CatchRow> = {
  columns: ["turbineLoad", "turbineFlow", "net", "group", "caught"],
  allowed: "above 0, as the flow, where fish came through the turbine",
  fault: (row) =>
    isStill(row)
      ? `${row.caught} fish were caught behind a turbine that stood still; correct load, flow or catch.`
      : undefined,
};

const key = (...parts: readonly unknown[]): string => JSON.stringify(parts);

/** All rows of a plant's night have one flow and one load; the odd one out against the others is at fault. */
function sameInTheNight(
  column: "turbineFlow" | "turbineLoad" | "bypassFlow",
  told: (row: CatchRow) => boolean,
): RowsRule<CatchRow> {
  return {
    columns: [column, "plant", "night", "net", "group", "caught", "turbineFlow", "turbineLoad"],
    allowed: "the same in all rows of a plant's night",
    faults(rows) {
      const nights = new Map<string, Map<number, number>>();
      for (const row of rows) {
        const night = key(row.plant, row.night);
        const values = nights.get(night) ?? new Map<number, number>();
        nights.set(night, values.set(row[column], (values.get(row[column]) ?? 0) + 1));
      }
      return rows.flatMap((row, index): RowFault[] => {
        const values = nights.get(key(row.plant, row.night)) ?? new Map<number, number>();
        const all = [...values.values()].reduce((sum, count) => sum + count, 0);
        const same = values.get(row[column]) ?? 0;
        const isOdd = [...values.values()].some((count) => 2 * count > all && count > same);
        const others = all - same;
        return isOdd && !told(row)
          ? [
              {
                index,
                fault: `${others} other rows of this night at ${row.plant} have another entry; correct this one.`,
              },
            ]
          : [];
      });
    },
  };
}

/** Rows with one catchId are told by the column; this finds a catch that got a second label. */
const oneCatchOnce: RowsRule<CatchRow> = {
  columns: ["catchId", "plant", "night", "net", "group", "species", "lengthFrom"],
  allowed: "one row for a plant, night, net, group, species and length class",
  faults(rows, lineOf) {
    const seen = new Map<string, number>();
    return rows.flatMap((row, index) => {
      const one = key(row.plant, row.night, row.net, row.group, row.species, row.lengthFrom);
      const earlier = seen.get(one);
      if (earlier === undefined) seen.set(one, index);
      return earlier === undefined
        ? []
        : [
            {
              index,
              fault: `line ${lineOf(earlier)} holds the same catch under another label; take one of them out.`,
            },
          ];
    });
  },
};
