import { uniforms } from "../random";
import { type ClusterLaw, clusterDraws, type DrawnCluster } from "./clusterLaw";

/** Simulations where the caller names no number: a probability near 0.8 then has an error of 0.009. */
export const usualSimulations = 2000;

/**
 * Many simulated studies that grow cluster by cluster, each held as the sums that its analysis needs.
 *
 * A study of eight clusters is one of seven and one more: what a further cluster buys is then not hidden by chance.
 */
export interface Studies {
  readonly simulations: number;
  /** Clusters of each study so far, those without a counted trial included. */
  clusters: number;
  /** Clusters with at least one counted trial. */
  readonly counted: Float64Array;
  readonly trials: Float64Array;
  readonly successes: Float64Array;
  readonly squaredTrials: Float64Array;
  readonly squaredSuccesses: Float64Array;
  readonly products: Float64Array;
  /** Adds one cluster to each study. */
  readonly grow: () => void;
}

/** Studies without clusters yet; the same seed gives the same clusters in the same order. */
export function studiesOf(options: {
  readonly law: ClusterLaw;
  readonly share: number;
  readonly seed: number;
  readonly simulations: number;
}): Studies {
  const { law, share, seed, simulations } = options;
  const draw = clusterDraws(law, share);
  const uniform = uniforms(seed);
  const cluster: DrawnCluster = { trials: 0, successes: 0 };
  const zeros = (): Float64Array => new Float64Array(simulations);
  const studies: Studies = {
    simulations,
    clusters: 0,
    counted: zeros(),
    trials: zeros(),
    successes: zeros(),
    squaredTrials: zeros(),
    squaredSuccesses: zeros(),
    products: zeros(),
    grow: () => {
      studies.clusters += 1;
      for (let at = 0; at < simulations; at++) {
        draw(uniform, cluster);
        const { trials, successes } = cluster;
        if (trials === 0) continue;
        studies.counted[at] += 1;
        studies.trials[at] += trials;
        studies.successes[at] += successes;
        studies.squaredTrials[at] += trials * trials;
        studies.squaredSuccesses[at] += successes * successes;
        studies.products[at] += trials * successes;
      }
    },
  };
  return studies;
}

/** Grows studies to a number of clusters. */
export function growTo(studies: Studies, clusters: number): Studies {
  while (studies.clusters < clusters) studies.grow();
  return studies;
}

/** The design effect that raoScott takes for a study of at least two counted clusters, from its sums. */
export function effectOf(studies: Studies, at: number): number {
  const [clusters, trials, successes] = [studies.counted[at], studies.trials[at], studies.successes[at]];
  if (successes === 0 || successes === trials) return studies.squaredTrials[at] / trials;
  const share = successes / trials;
  const residuals =
    studies.squaredSuccesses[at] -
    2 * share * studies.products[at] +
    share * share * studies.squaredTrials[at];
  const variance = ((clusters / (clusters - 1)) * residuals) / trials ** 2;
  return Math.max(1, (trials * variance) / (share * (1 - share)));
}

/** Mean of some numbers and the standard error that simulating them leaves on it. */
export function meanOf(values: Float64Array): { readonly mean: number; readonly error: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, error: Math.sqrt(squares / (values.length - 1) / values.length) };
}

/** Standard error of a share that was counted in simulations. */
export const shareError = (share: number, simulations: number): number =>
  Math.sqrt((share * (1 - share)) / simulations);
