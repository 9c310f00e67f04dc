import { formatNumber } from "../../quantity/format";
import { noteUse } from "../../formula/usage";
import { lawOf, type ProtectionLaw } from "../law";
import { logistic } from "../logistic";
import { ramp } from "../ramp";
import { familyNamed } from "./families";
import { shareAt, type Values } from "./family";
import type { ProtectionFit } from "./protectionFit";

/**
 * A fitted curve as a protection law, for `survival` and figures.
 *
 * Returns a function of relative width that gives a share 0..1. A fitted share that passes however wide stays in the law; a
 * share held however slim is left out: it speaks of the trial, such as runs that ended too soon, and would credit the rack
 * with fish that drift through. Valid for the rack, species and conditions of the trial.
 *
 * @example
 * protection.law(protection.fitLogistic({ fish: [{ relativeWidth: 0.4, held: 5, fish: 20 },
 *   { relativeWidth: 0.6, held: 10, fish: 20 }, { relativeWidth: 0.8, held: 15, fish: 20 }] }))(0.6) // => 0.5
 */
export function law(fit: ProtectionFit): ProtectionLaw {
  const clusters = fit.clusters === undefined ? "" : ` in ${fit.clusters} clusters`;
  return lawWith(fit, fit.values, `fitted to ${fit.fish} fish${clusters}`);
}

/** The law of a fit's family with other values, such as those of a resample. */
export function lawWith({ family, lapses }: ProtectionFit, values: Values, how: string): ProtectionLaw {
  noteUse(family === "ramp" ? ramp.id : logistic.id);
  const kept = { ...values, heldAnyway: 0 };
  const numbers = Object.entries(values)
    .map(([name, value]) => `${name} ${formatNumber(value)}`)
    .join(", ");
  return lawOf((relativeWidth) => shareAt(familyNamed(family), kept, relativeWidth), {
    title: `${family}, ${how}: ${numbers}`,
    breaks: family === "ramp" ? [values.threshold ?? 0, 1] : [],
    cautions: [
      `the curve was ${how} of one trial: it holds for that rack, those species and those conditions.`,
      ...(lapses.heldAnyway
        ? [
            "the share held however slim was fitted and left out of the law: it speaks of the trial, not of the rack.",
          ]
        : []),
    ],
  });
}
