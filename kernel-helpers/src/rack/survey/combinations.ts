import { proportionInterval } from "../../statistics/proportion";

/** A class of values, from the first edge (included) to the next (excluded; the last class includes its end). */
export interface ClassOfValues {
  readonly from: number;
  readonly to: number;
}

/** How many plants have been built with two values in given classes. */
export interface Combination {
  readonly first: ClassOfValues;
  readonly second: ClassOfValues;
  readonly count: number;
  /** How many there would be if the two were chosen without regard to each other. */
  readonly expected: number;
  /** Where none was built: how likely that is by chance alone, with the number expected. */
  readonly chanceOfNone: number | undefined;
  /** Upper bound of the share of such plants among all. */
  readonly shareAtMost: number;
  readonly verdict: "built" | "gap" | "may be chance";
}

/** Pairs of values and the classes they were counted in. */
export interface Combinations {
  /** Plants that answered both questions. */
  readonly count: number;
  /** Pairs outside the classes. */
  readonly outside: number;
  readonly cells: readonly Combination[];
}

const refuse = (sentence: string): never => {
  throw new RangeError(`survey.combinations: ${sentence}`);
};

/**
 * Which combinations of two values have been built, and which not.
 *
 * Returns one cell for each pair of classes. A cell without a plant is a "gap" only where chance alone would leave it
 * empty in fewer than 5 of 100 surveys (`gapBelow`), had the two values been chosen without regard to each other;
 * otherwise it "may be chance". A gap says that nobody who answered built it, not that it can't be built or does not
 * work. Pairs in which one value is missing (undefined) are left out. Throws a RangeError for edges that don't rise
 * and lists of unequal length.
 *
 * @example
 * survey.combinations({ values: [1, 1, 2], edges: [0, 1.5, 3] }, { values: [5, 6, 7], edges: [4, 6.5, 8] }).cells[0].count
 * // => 2
 */
export function combinations(
  first: { readonly values: readonly (number | undefined)[]; readonly edges: readonly number[] },
  second: { readonly values: readonly (number | undefined)[]; readonly edges: readonly number[] },
  { gapBelow = 0.05 }: { readonly gapBelow?: number } = {},
): Combinations {
  if (first.values.length !== second.values.length) {
    refuse(
      `${first.values.length} first values and ${second.values.length} second ones; give one of each a plant.`,
    );
  }
  if (!(gapBelow > 0 && gapBelow < 1))
    refuse(`gapBelow is ${String(gapBelow)}; it must lie between 0 and 1.`);
  const classes = [first, second].map(({ edges }) => classesOf(edges));
  const pairs = first.values.flatMap((value, i) => {
    const other = second.values[i];
    return value === undefined || other === undefined ? [] : [[value, other] as const];
  });
  const placed = pairs
    .map(([one, other]) => [placeOf(one, classes[0]), placeOf(other, classes[1])] as const)
    .filter(([one, other]) => one >= 0 && other >= 0);
  const count = placed.length;
  if (count === 0) refuse("no plant has both values inside the classes.");
  const cells = classes[0].flatMap((firstClass, i) =>
    classes[1].map((secondClass, j) => {
      const here = placed.filter(([one, other]) => one === i && other === j).length;
      const share =
        (placed.filter(([one]) => one === i).length / count) *
        (placed.filter(([, other]) => other === j).length / count);
      const chanceOfNone = here > 0 ? undefined : (1 - share) ** count;
      return {
        first: firstClass,
        second: secondClass,
        count: here,
        expected: count * share,
        chanceOfNone,
        shareAtMost: proportionInterval({ successes: here, trials: count, method: "clopperPearson" }).upper,
        verdict: verdictOf(chanceOfNone, gapBelow),
      };
    }),
  );
  return { count, outside: pairs.length - count, cells };
}

const verdictOf = (chanceOfNone: number | undefined, gapBelow: number): Combination["verdict"] =>
  chanceOfNone === undefined ? "built" : chanceOfNone < gapBelow ? "gap" : "may be chance";

function classesOf(edges: readonly number[]): readonly ClassOfValues[] {
  if (edges.length < 2) refuse(`${edges.length} edges; one class takes two.`);
  return edges.slice(1).map((to, i) => {
    const from = edges[i];
    if (!(to > from)) refuse(`edge ${i + 1} is ${String(to)}; it must be above the edge before it, ${from}.`);
    return { from, to };
  });
}

/** The class of a value; a slack of one part in a billion, because 15 mm typed in cm must not miss its edge. */
function placeOf(value: number, classes: readonly ClassOfValues[]): number {
  const last = classes.length - 1;
  const slack = 1e-9 * Math.max(Math.abs(classes[0].from), Math.abs(classes[last].to));
  return classes.findIndex(
    ({ from, to }, i) => value >= from - slack && (value < to - slack || (i === last && value <= to + slack)),
  );
}
