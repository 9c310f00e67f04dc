import { checkNumber, refuse } from "../statistics/checks";
import { noteUse } from "../formula/usage";
import { bridged } from "./bridge";
import { outsideCloud, type SpikeMethod, spikeMethods } from "./phaseSpace";
import { checkSamples, type Component, components, type ProbeSample } from "./sample";
import { universalThreshold } from "./universalThreshold";

/** Why a sample is left out; "good" where it is kept. */
export type SampleVerdict = "good" | "poor correlation" | "spike";

/** A sample as the probe gave it, and what became of it. */
export interface CleanedSample extends ProbeSample {
  readonly verdict: SampleVerdict;
  /** The components in which it is a spike. */
  readonly spikeIn: readonly Component[];
  /** The three components, each bridged across what was left out: for looking at, not for statistics. */
  readonly bridged: { readonly [C in Component]: number };
}

/** A record with every sample it came with, and the verdict on each. */
export interface CleanedRecord {
  readonly method: string;
  readonly lowestCorrelation: number;
  /** Universal threshold in standard deviations. */
  readonly threshold: number;
  /** From sample to sample, s. */
  readonly step: number;
  readonly samples: readonly CleanedSample[];
  readonly count: {
    readonly samples: number;
    readonly good: number;
    readonly poorCorrelation: number;
    readonly spikes: number;
  };
  /** Share of the samples that is left out, of all. */
  readonly removedShare: number;
  /** How often the cloud was drawn anew until no further sample fell outside, the most of the three components. */
  readonly passes: number;
}

/** What `cleanRecord` takes beside the samples. */
export interface CleanOptions {
  /** Samples whose correlation is lower are left out, in per cent; 70 unless told otherwise. */
  readonly lowestCorrelation?: number;
  /** "robust" (with medians, after Wahl) unless told otherwise, or "original". */
  readonly method?: SpikeMethod;
  /** A record with a smaller share of good samples is refused; 0.7 unless told otherwise. */
  readonly leastGoodShare?: number;
}

const mostPasses = 50;

/**
 * Marks the samples of a raw probe record that are of poor correlation or spikes.
 *
 * Returns every sample as it came, with a verdict: "good", "poor correlation" or "spike", the components in which it is a
 * spike, and a bridged value to look at. Nothing is deleted or overwritten. First the correlation is held against
 * `lowestCorrelation`; then spikes are found by phase-space thresholding (Goring & Nikora 2002, J. Hydraul. Eng. 128(1);
 * "robust" as Wahl 2003, J. Hydraul. Eng. 129(6), changed it, written after texts that quote it), again and again with
 * the spikes bridged, until no further sample falls outside. A spike in one component is taken as a spike in all.
 * Valid for one steady record of evenly spaced samples. The price: neighbours of a spike often count as spikes too, and of
 * normal turbulence without spikes about 1 % of 1500 samples do, of 500 about 3 % ("original" takes half of that, but where a
 * seventh of the samples were spikes of six standard deviations it found 2 % of them, and "robust" all).
 * Throws a RangeError for fewer than 100 samples, times that are not evenly spaced, a correlation outside 0 to 100, and a
 * record of which less than `leastGoodShare` is good.
 *
 * @example
 * velocity.cleanRecord(Array.from({ length: 100 }, (_, i) => ({ time: i / 25, velocityX: i === 40 ? 2 : 0.5,
 *   velocityY: 0, velocityZ: 0, correlation: i === 60 ? 35 : 92 }))).samples[40].verdict // => "spike"
 */
export function cleanRecord(samples: readonly ProbeSample[], options: CleanOptions = {}): CleanedRecord {
  const where = "velocity.cleanRecord";
  const { lowestCorrelation = 70, method = "robust", leastGoodShare = 0.7 } = options;
  checkNumber(where, "lowestCorrelation", lowestCorrelation, { atLeast: 0, atMost: 100 });
  checkNumber(where, "leastGoodShare", leastGoodShare, { above: 0, atMost: 1 });
  if (!Object.hasOwn(spikeMethods, method)) {
    refuse(where, `method is ${JSON.stringify(method)}; it must be "robust" or "original"`);
  }
  const step = checkSamples(where, samples);
  const poor = samples.map(({ correlation }) => correlation < lowestCorrelation);
  checkGood(where, poor, leastGoodShare, `by a correlation below ${lowestCorrelation} %`);

  const found = components.map((component) => {
    const series = samples.map((sample) => sample[component]);
    return { component, series, ...spikesOf(series, poor, method) };
  });
  const bad = samples.map((_, at) => poor[at] || found.some(({ spikes }) => spikes[at]));
  checkGood(where, bad, leastGoodShare, `by a correlation below ${lowestCorrelation} % and as spikes`);

  const [x, y, z] = found.map(({ series }) => bridged(series, bad));
  const cleaned = samples.map((sample, at): CleanedSample => {
    const spikeIn = found.filter(({ spikes }) => spikes[at]).map(({ component }) => component);
    return {
      ...sample,
      verdict: poor[at] ? "poor correlation" : spikeIn.length > 0 ? "spike" : "good",
      spikeIn,
      bridged: { velocityX: x[at], velocityY: y[at], velocityZ: z[at] },
    };
  });
  const of = (verdict: SampleVerdict): number => cleaned.filter((one) => one.verdict === verdict).length;
  noteUse(universalThreshold.id);
  return {
    method: `correlation of at least ${lowestCorrelation} %; ${spikeMethods[method]}`,
    lowestCorrelation,
    threshold: universalThreshold.evaluate({ samples: samples.length }),
    step,
    samples: cleaned,
    count: {
      samples: samples.length,
      good: of("good"),
      poorCorrelation: of("poor correlation"),
      spikes: of("spike"),
    },
    removedShare: 1 - of("good") / samples.length,
    passes: Math.max(...found.map(({ passes }) => passes)),
  };
}

function checkGood(where: string, bad: readonly boolean[], least: number, how: string): void {
  const good = bad.filter((one) => !one).length;
  if (good >= least * bad.length) return;
  refuse(
    where,
    `${bad.length - good} of ${bad.length} samples fall out ${how}; at least ${(100 * least).toFixed(0)} % must be good. ` +
      "Measure the point again, or state a lower leastGoodShare",
  );
}

/** Spikes of one component; samples that are poor already are bridged and never counted. */
function spikesOf(
  series: readonly number[],
  poor: readonly boolean[],
  method: SpikeMethod,
): { readonly spikes: readonly boolean[]; readonly passes: number } {
  const spikes = series.map(() => false);
  const bad = [...poor];
  for (let passes = 1; passes <= mostPasses; passes++) {
    const fresh = outsideCloud(bridged(series, bad), bad, method).filter((at) => !bad[at]);
    if (fresh.length === 0) return { spikes, passes };
    for (const at of fresh) bad[at] = spikes[at] = true;
  }
  return { spikes, passes: mostPasses };
}
