import type { LinkedShare } from "./link";
import { library } from "../library";

/** The counts that a fit is made to, row by row, and nothing else about them. */
export interface Counts {
  readonly successes: readonly number[];
  readonly trials: readonly number[];
}

/** Returns twice the loss of log-likelihood against a fit that meets every row; Infinity where a share rules a row out. */
export function devianceOf({ successes, trials }: Counts, shares: readonly LinkedShare[]): number {
  return shares.reduce((sum, { share, rest }, row) => {
    const [good, all] = [successes[row], trials[row]];
    return sum + 2 * (excess(good, all * share) + excess(all - good, all * rest));
  }, 0);
}

/** observed · ln(observed/expected), which is 0 where nothing was observed. */
function excess(observed: number, expected: number): number {
  return observed === 0 ? 0 : observed * Math.log(observed / expected);
}

/** Returns the log-likelihood of a fit that meets every row: the deviance counts from here. */
export function fullLogLikelihood({ successes, trials }: Counts): number {
  return trials.reduce((sum, all, row) => {
    const good = successes[row];
    return sum + lnChoose(all, good) + share(good, all) + share(all - good, all);
  }, 0);
}

const share = (part: number, all: number): number => (part === 0 ? 0 : part * Math.log(part / all));

/** ln of the number of ways to choose k of n. */
const lnChoose = (n: number, k: number): number => -Math.log(n + 1) - library.logBeta(n - k + 1, k + 1);

/** Returns Pearson's chi-square: squared differences over the binomial variance. */
export function pearsonChiSquare({ successes, trials }: Counts, shares: readonly LinkedShare[]): number {
  return shares.reduce((sum, { share: fitted, rest }, row) => {
    const expected = trials[row] * fitted;
    return sum + (successes[row] - expected) ** 2 / (expected * rest);
  }, 0);
}
