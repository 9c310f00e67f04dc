import { noteUse } from "../formula/usage";
import type { Velocity } from "../quantity/dimension";
import { u } from "../quantity/u";
import type { CleanedRecord } from "./cleanRecord";
import { type CorrelatedMean, correlatedMean } from "./correlatedMean";
import { type Component, components } from "./sample";
import { turbulentKineticEnergy } from "./turbulentKineticEnergy";

/** Mean and fluctuation of one component. */
export interface ComponentStatistics {
  readonly mean: Velocity;
  /** Of the fluctuations, about the mean. */
  readonly standardDeviation: Velocity;
  /** Standard deviation over the mean speed; undefined where the water stands still. */
  readonly intensity: number | undefined;
  /** The mean with its sampling error. */
  readonly sampling: CorrelatedMean;
}

/** What a cleaned record says about its point. */
export interface RecordStatistics {
  readonly method: string;
  readonly samples: number;
  readonly good: number;
  readonly removedShare: number;
  readonly velocityX: ComponentStatistics;
  readonly velocityY: ComponentStatistics;
  readonly velocityZ: ComponentStatistics;
  /** Length of the vector of the means. */
  readonly meanSpeed: Velocity;
  /** In m²/s². */
  readonly turbulentKineticEnergy: number;
  /** Means of the products of two fluctuations in m²/s²; a Reynolds stress is its negative times the density of water. */
  readonly meanProducts: { readonly xy: number; readonly xz: number; readonly yz: number };
}

/**
 * Means, fluctuations and their sampling errors from a cleaned record.
 *
 * Returns for each component mean, standard deviation, turbulence intensity (over the mean speed) and the mean with its
 * error; the turbulent kinetic energy and the mean products of two fluctuations in m²/s². Only good samples count; bridged
 * values never do. Valid for a steady record; the probe's noise is part of the fluctuations. The cleaning costs a little: of
 * raw records of 30 s with 2 % spikes and 6 % poor samples the 95 % intervals held the truth in 91 to 93 %, of records
 * without faults in 95 %. Throws a RangeError for fewer than 20 good samples.
 *
 * @example
 * velocity.recordStatistics(velocity.cleanRecord(Array.from({ length: 100 }, (_, i) => ({ time: i / 25,
 *   velocityX: i % 2 === 0 ? 0.48 : 0.52, velocityY: 0, velocityZ: 0, correlation: 90 })))).meanSpeed // => 0.5 m/s
 */
export function recordStatistics(
  record: CleanedRecord,
  options: { readonly level?: number } = {},
): RecordStatistics {
  const good = record.samples.filter(({ verdict }) => verdict === "good");
  const sampling = Object.fromEntries(
    components.map((component) => [
      component,
      correlatedMean(
        record.samples.map((sample) => (sample.verdict === "good" ? sample[component] : undefined)),
        { step: record.step, ...options },
      ),
    ]),
  ) as Record<Component, CorrelatedMean>; // the keys are the components
  const speed = Math.hypot(...components.map((component) => sampling[component].mean));
  const one = (component: Component): ComponentStatistics => {
    const { mean, standardDeviation } = sampling[component];
    return {
      mean: u.mps(mean),
      standardDeviation: u.mps(standardDeviation),
      intensity: speed > 0 ? standardDeviation / speed : undefined,
      sampling: sampling[component],
    };
  };
  const meanProduct = (a: Component, b: Component): number =>
    good.reduce((sum, sample) => sum + (sample[a] - sampling[a].mean) * (sample[b] - sampling[b].mean), 0) /
    (good.length - 1);
  noteUse(turbulentKineticEnergy.id);
  return {
    method: record.method,
    samples: record.count.samples,
    good: good.length,
    removedShare: record.removedShare,
    velocityX: one("velocityX"),
    velocityY: one("velocityY"),
    velocityZ: one("velocityZ"),
    meanSpeed: u.mps(speed),
    turbulentKineticEnergy: turbulentKineticEnergy.evaluate({
      deviationX: sampling.velocityX.standardDeviation,
      deviationY: sampling.velocityY.standardDeviation,
      deviationZ: sampling.velocityZ.standardDeviation,
    }),
    meanProducts: {
      xy: meanProduct("velocityX", "velocityY"),
      xz: meanProduct("velocityX", "velocityZ"),
      yz: meanProduct("velocityY", "velocityZ"),
    },
  };
}
