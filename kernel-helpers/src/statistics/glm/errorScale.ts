import { refuse } from "../checks";
import { normalQuantile, studentQuantile } from "../distributions";
import type { BinomialFit } from "./fitBinomial";

/**
 * Which errors a result is given with: "binomial" takes the trials as independent, or the cluster-robust errors that a fit has; "quasi" widens them by the dispersion
 * and uses Student's t.
 */
export type ErrorKind = "binomial" | "quasi";

/** What the binomial errors are multiplied by, and how many of them an interval reaches to each side. */
export interface ErrorScale {
  readonly factor: number;
  readonly reach: number;
  readonly words: string;
}

/** Returns the scale of the errors; throws a RangeError where quasi-likelihood errors need degrees of freedom there aren't. */
export function errorScale(by: string, fit: BinomialFit, errors: ErrorKind, level: number): ErrorScale {
  const upper = (1 + level) / 2;
  if (fit.clusters !== undefined) {
    if (errors === "quasi")
      refuse(
        by,
        "the fit has cluster-robust errors, which quasi-likelihood errors can't widen; leave errors out",
      );
    const reach = studentQuantile(upper, { degreesOfFreedom: fit.clusters - 1 });
    return { factor: 1, reach, words: `cluster-robust errors of ${fit.clusters} clusters` };
  }
  if (errors === "binomial") return { factor: 1, reach: normalQuantile(upper), words: "binomial errors" };
  if (errors !== "quasi") refuse(by, `errors is "${String(errors)}"; it must be "binomial" or "quasi"`);
  const { dispersion, degreesOfFreedom } = fit;
  if (dispersion === undefined)
    refuse(by, "the fit has no degrees of freedom left, so its dispersion is not known");
  return {
    factor: Math.sqrt(dispersion),
    reach: studentQuantile(upper, { degreesOfFreedom }),
    words: `quasi-likelihood errors, dispersion ${dispersion.toPrecision(3)}`,
  };
}
