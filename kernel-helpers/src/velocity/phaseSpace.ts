import { universalThreshold } from "./universalThreshold";

/** How spikes are told from turbulence; both after published methods. */
export type SpikeMethod = keyof typeof spikeMethods;

export const spikeMethods = {
  robust:
    "phase-space thresholding of Goring & Nikora 2002 with median, median absolute deviation and one ellipsoid after Wahl 2003",
  original:
    "phase-space thresholding of Goring & Nikora 2002 with mean, standard deviation and three ellipses",
} as const;

// Turns a median absolute deviation into the standard deviation of normal numbers.
const normalScale = 1.483;
/** Slope of the cloud over that of its box's diagonal, from which on it is too thin to draw. */
const narrowest = 0.95;
const fewestForSpread = 20;
/** Differences of this size in m/s are those of the arithmetic, in a component that never changes. */
const rounding = 1e-9;

/**
 * Places of the samples outside the cloud of the others, where each is a point of velocity, first and second difference.
 *
 * The half axes of the cloud in the three directions are the universal threshold times the spread; the cloud leans in
 * the plane of velocity and second difference, since a maximum has a negative one. Spreads and lean come from samples
 * and differences without a bridged value: bridges are smooth, and would make the cloud shrink from pass to pass.
 */
export function outsideCloud(
  series: readonly number[],
  bridged: readonly boolean[],
  method: SpikeMethod,
): number[] {
  const end = series.length - 1;
  const all = series.map((_, at) => at);
  const kept = enough(all, (at) => !bridged[at]);
  const middle = (method === "robust" ? median : mean)(kept.map((at) => series[at]));
  const velocity = series.map((value) => value - middle);
  const first = differences(velocity);
  const second = differences(first);
  const firstKept = enough(all, (at) => at > 0 && at < end && !bridged[at - 1] && !bridged[at + 1]);
  const secondKept = enough(
    all,
    (at) => at > 1 && at < end - 1 && !bridged[at] && !bridged[at - 2] && !bridged[at + 2],
  );
  const threshold = universalThreshold.evaluate({ samples: series.length });
  const spread = method === "robust" ? robustSpread : standardDeviation;
  const reach = (values: readonly number[], places: readonly number[]): number =>
    threshold * spread(places.map((at) => values[at]));
  const [reachU, reachFirst, reachSecond] = [
    reach(velocity, kept),
    reach(first, firstKept),
    reach(second, secondKept),
  ];
  // Spikes would turn the cloud: with medians its lean is that of the samples inside of the upright box.
  const inBox = (at: number): boolean =>
    Math.abs(velocity[at]) <= reachU && Math.abs(second[at]) <= reachSecond;
  const lean = leaning(method === "robust" ? secondKept.filter(inBox) : secondKept, {
    velocity,
    second,
    reachU,
    reachSecond,
  });

  return series.flatMap((_, at) => {
    const along = velocity[at] * lean.cosine + second[at] * lean.sine;
    const across = second[at] * lean.cosine - velocity[at] * lean.sine;
    const leaningPart = squared(along, lean.along) + squared(across, lean.across);
    const outside =
      method === "robust"
        ? leaningPart + squared(first[at], reachFirst) > 1
        : squared(velocity[at], reachU) + squared(first[at], reachFirst) > 1 ||
          squared(first[at], reachFirst) + squared(second[at], reachSecond) > 1 ||
          leaningPart > 1;
    return outside ? [at] : [];
  });
}

function squared(value: number, reach: number): number {
  if (Math.abs(value) < rounding) return 0;
  return reach > 0 ? (value / reach) ** 2 : Infinity;
}

/** The places that pass, or all of them where too few would be left for a spread. */
function enough(places: readonly number[], passes: (at: number) => boolean): readonly number[] {
  const found = places.filter(passes);
  return found.length >= fewestForSpread ? found : places;
}

/** Half of the difference between both neighbours; 0 at the ends, where there is one only. */
function differences(series: readonly number[]): number[] {
  return series.map((_, at) =>
    at === 0 || at === series.length - 1 ? 0 : (series[at + 1] - series[at - 1]) / 2,
  );
}

/** The leaning ellipse that reaches just as far as given along both axes: its angle and its half axes. */
function leaning(
  places: readonly number[],
  cloud: {
    readonly velocity: readonly number[];
    readonly second: readonly number[];
    readonly reachU: number;
    readonly reachSecond: number;
  },
): { readonly cosine: number; readonly sine: number; readonly along: number; readonly across: number } {
  const { velocity, second, reachU, reachSecond } = cloud;
  const product = places.reduce((sum, at) => sum + velocity[at] * second[at], 0);
  const square = places.reduce((sum, at) => sum + velocity[at] ** 2, 0);
  const slope = square > 0 ? product / square : 0;
  // A slope that takes one reach to the other leaves an ellipse without width: spreads by medians need not fit
  // the slope. Then the ellipse stands upright.
  if (
    Math.abs(slope) * reachU >= narrowest * reachSecond ||
    Math.abs(slope) * reachSecond >= narrowest * reachU
  ) {
    return { cosine: 1, sine: 0, along: reachU, across: reachSecond };
  }
  const angle = Math.atan(slope);
  const [cosine, sine] = [Math.cos(angle), Math.sin(angle)];
  // reachU² = along² cos² + across² sin² and reachSecond² = along² sin² + across² cos², solved for the half axes.
  const double = cosine ** 2 - sine ** 2;
  return {
    cosine,
    sine,
    along: Math.sqrt(((reachU * cosine) ** 2 - (reachSecond * sine) ** 2) / double),
    across: Math.sqrt(((reachSecond * cosine) ** 2 - (reachU * sine) ** 2) / double),
  };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function standardDeviation(values: readonly number[]): number {
  const middle = mean(values);
  return Math.sqrt(values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / (values.length - 1));
}

function median(values: readonly number[]): number {
  const sorted = Float64Array.from(values).toSorted();
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}

function robustSpread(values: readonly number[]): number {
  const middle = median(values);
  // Where more than half of the samples are the same, their median deviation is 0 and says nothing.
  return normalScale * median(values.map((value) => Math.abs(value - middle))) || standardDeviation(values);
}
