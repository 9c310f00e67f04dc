import { checkLevel, checkWhole, refuse } from "../statistics/checks";
import { normalQuantile, studentQuantile } from "../statistics/distributions";
import { wilson } from "../statistics/proportionMethods";

/** Fish of one group in one night: how many there were, and how many of them were alive. */
export interface Survivors {
  /** Nights of one name are taken together: what happened to treated and control fish there hangs together. */
  readonly night?: string;
  readonly alive: number;
  readonly fish: number;
}

/** A survival relative to a control, with its error. */
export interface RelativeSurvival {
  readonly method: string;
  /** Survival of the treated over that of the control fish. May come out above 1 and is not cut off there. */
  readonly estimate: number;
  readonly standardError: number;
  readonly lower: number;
  readonly upper: number;
  readonly level: number;
  readonly treated: GroupSurvival;
  readonly control: GroupSurvival;
  readonly cautions: readonly string[];
}

export interface GroupSurvival {
  readonly alive: number;
  readonly fish: number;
  readonly share: number;
  readonly nights: number;
}

/**
 * Survival of treated fish over that of control fish, which went through everything but the passage.
 *
 * Returns (a/n)/(c/m) with the delta method's error on the logarithm. From one night, or counts summed up, the variance is
 * that of independent fish, (1 − p)/(n p) for each group (Burnham et al. 1987). From several nights it is that of the
 * nights' departures from the whole, nights of one name taken together, with Student's t for their number; where nights
 * differ less than chance would have it, that of independent fish. Where the delta method has no variance (no treated fish lived, or none of either group
 * died) the interval comes from Wilson's limits by square-and-add for a ratio (Donner & Zou 2012). An estimate above 1 is
 * shown as it is. Valid where both groups were handled alike. Throws a RangeError for counts that are not whole, more
 * alive than there were, and a control of which none lived.
 *
 * @example
 * monitoring.relativeSurvival({ treated: { alive: 171, fish: 200 }, control: { alive: 96, fish: 100 } }).standardError
 * // => 0.03167
 */
export function relativeSurvival({
  treated,
  control,
  interval = "delta",
  level = 0.95,
}: {
  readonly treated: Survivors | readonly Survivors[];
  readonly control: Survivors | readonly Survivors[];
  /** "delta" unless told otherwise; "squareAndAdd" takes the fish as independent. */
  readonly interval?: "delta" | "squareAndAdd";
  readonly level?: number;
}): RelativeSurvival {
  const where = "monitoring.relativeSurvival";
  checkLevel(where, level);
  if (interval !== "delta" && interval !== "squareAndAdd")
    refuse(where, `interval is "${String(interval)}"; it must be "delta" or "squareAndAdd"`);
  const [first, second] = [
    groupOf(where, "treated", nightsOf(treated)),
    groupOf(where, "control", nightsOf(control)),
  ];
  if (second.alive === 0)
    refuse(where, `none of ${second.fish} control fish lived; there is nothing to relate to`);

  const estimate = first.share / second.share;
  const independent = varianceOfCount(first) + varianceOfCount(second);
  const common = { estimate, level, treated: summary(first), control: summary(second) };
  const isAtBoundary = !(independent > 0 && Number.isFinite(independent));
  if (isAtBoundary || interval === "squareAndAdd") {
    const [lower, upper] = squareAndAdd(first, second, level);
    return {
      ...common,
      method: "ratio of shares; Wilson's limits by square-and-add, fish taken as independent",
      // As wide as a normal error with this interval would be.
      standardError: (upper - lower) / (2 * normalQuantile((1 + level) / 2)),
      lower,
      upper,
      cautions: [...cautionsOf(estimate), ...(isAtBoundary ? [boundaryCaution(first, second)] : [])],
    };
  }
  const between = betweenNights(first, second);
  const isWider = between !== undefined && between.variance > independent;
  const reach = isWider
    ? studentQuantile((1 + level) / 2, { degreesOfFreedom: between.degreesOfFreedom })
    : normalQuantile((1 + level) / 2);
  const relativeError = Math.sqrt(isWider ? between.variance : independent);
  return {
    ...common,
    method:
      between === undefined
        ? "ratio of shares; delta method on the logarithm, fish taken as independent"
        : `ratio of shares; delta method on the logarithm, ${
            between.variance > independent
              ? "nights as clusters"
              : "nights no more apart than independent fish"
          }`,
    standardError: estimate * relativeError,
    lower: estimate * Math.exp(-reach * relativeError),
    upper: estimate * Math.exp(reach * relativeError),
    cautions: [
      ...cautionsOf(estimate),
      ...(between === undefined
        ? ["From one night the spread between nights is unknown: the error is that of independent fish."]
        : []),
    ],
  };
}

interface NightlyGroup extends GroupSurvival {
  readonly counts: readonly Survivors[];
}

const nightsOf = (given: Survivors | readonly Survivors[]): readonly Survivors[] =>
  "alive" in given ? [given] : given;

function groupOf(where: string, name: string, given: readonly Survivors[]): NightlyGroup {
  given.forEach(({ alive, fish }, at) => {
    checkWhole(where, `${name}[${at}].fish`, fish, 0);
    checkWhole(where, `${name}[${at}].alive`, alive, 0, fish);
  });
  const counts = merged(given.filter(({ fish }) => fish > 0));
  const fish = counts.reduce((sum, one) => sum + one.fish, 0);
  const alive = counts.reduce((sum, one) => sum + one.alive, 0);
  if (fish === 0) refuse(where, `${name} has no fish`);
  return { alive, fish, share: alive / fish, nights: counts.length, counts };
}

/** One count a named night; counts without a name are nights of their own. */
function merged(given: readonly Survivors[]): Survivors[] {
  const named = new Map<string, Survivors>();
  const unnamed: Survivors[] = [];
  for (const one of given) {
    if (one.night === undefined) {
      unnamed.push(one);
      continue;
    }
    const there = named.get(one.night) ?? { night: one.night, alive: 0, fish: 0 };
    named.set(one.night, { ...there, alive: there.alive + one.alive, fish: there.fish + one.fish });
  }
  return [...named.values(), ...unnamed];
}

const summary = ({ alive, fish, share, nights }: NightlyGroup): GroupSurvival => ({
  alive,
  fish,
  share,
  nights,
});

/** Variance of the logarithm of a share of independent fish. */
const varianceOfCount = ({ share, fish }: GroupSurvival): number => (1 - share) / (fish * share);

/** How far each night pulls the logarithm of the group's share. */
const pullsOf = ({ counts, alive, share }: NightlyGroup): number[] =>
  counts.map((one) => (one.alive - one.fish * share) / alive);

/** Variance of the logarithm of the ratio from the nights' pulls; undefined where a group has one night. */
function betweenNights(
  treated: NightlyGroup,
  control: NightlyGroup,
): { readonly variance: number; readonly degreesOfFreedom: number } | undefined {
  if (treated.nights < 2 || control.nights < 2) return undefined;
  const [ofTreated, ofControl] = [pullsOf(treated), pullsOf(control)];
  const variances = [ofTreated, ofControl].map(
    (pulls) => (pulls.length / (pulls.length - 1)) * pulls.reduce((sum, pull) => sum + pull ** 2, 0),
  );
  const products = treated.counts.flatMap(({ night }, at) => {
    const other = night === undefined ? -1 : control.counts.findIndex((one) => one.night === night);
    return other < 0 ? [] : [ofTreated[at] * ofControl[other]];
  });
  const shared = products.length;
  const covariance =
    shared < 2 ? 0 : (shared / (shared - 1)) * products.reduce((sum, product) => sum + product, 0);
  const sum = variances[0] + variances[1];
  // Satterthwaite's degrees of freedom; without any spread those of the group with fewer nights.
  const parts = variances[0] ** 2 / (treated.nights - 1) + variances[1] ** 2 / (control.nights - 1);
  return {
    variance: Math.max(0, sum - 2 * covariance),
    degreesOfFreedom: parts > 0 ? sum ** 2 / parts : Math.min(treated.nights, control.nights) - 1,
  };
}

/** Limits of a ratio of two shares from the limits of each (Donner & Zou 2012, Stat. Methods Med. Res. 21:347). */
function squareAndAdd(
  first: GroupSurvival,
  second: GroupSurvival,
  level: number,
): readonly [lower: number, upper: number] {
  const [one, other] = [wilson(first.alive, first.fish, level), wilson(second.alive, second.fish, level)];
  const product = first.share * second.share;
  const limit = (ofFirst: number, ofSecond: number, sign: 1 | -1): number => {
    const inner =
      product ** 2 - ofFirst * ofSecond * (2 * first.share - ofFirst) * (2 * second.share - ofSecond);
    return (product + sign * Math.sqrt(Math.max(0, inner))) / (ofSecond * (2 * second.share - ofSecond));
  };
  return [limit(one.lower, other.upper, -1), limit(one.upper, other.lower, 1)];
}

const cautionsOf = (estimate: number): string[] =>
  estimate > 1
    ? [
        `The relative survival is estimated as ${estimate.toPrecision(4)}, above 1 by chance. It is shown as it is: cut ` +
          "off at 1, an average over nights would come out too low. It is no probability and enters a chain only by your choice.",
      ]
    : [];

function boundaryCaution(treated: GroupSurvival, control: GroupSurvival): string {
  const what =
    treated.alive === 0
      ? `None of ${treated.fish} treated fish lived`
      : `None of ${treated.fish} treated and ${control.fish} control fish died`;
  return `${what}: how far nights differ is unknown, and the interval takes the fish as independent.`;
}
