import { checkNumber } from "../statistics/checks";
import { normalQuantile } from "../statistics/distributions";
import { lawOf, type ProtectionLaw } from "./law";

/** Bodies that stand for a spread, each for as many fish. */
const bodies = 200;

/**
 * Protection of fish whose bodies vary: the mean of a law over the bodies that fish of one length have.
 *
 * Returns a law of the relative width of the middle fish (the median). `spread` is the standard deviation of ln(width)
 * among fish of one length: `fish.bodyRatios` measures it. Bodies are taken as lognormal, in 200 slices of as many fish
 * each. Valid where the law holds for single fish; a law fitted to fish whose bodies were reckoned from their lengths has
 * part of the spread in it already. Throws a RangeError for a spread below 0 or above 1.
 *
 * @example
 * protection.overSpread({ law: protection.barrierLaw(), spread: 0.07 })(1) // => 0.5
 */
export function overSpread({
  law,
  spread,
}: {
  readonly law: ((relativeWidth: number) => number) & Partial<Pick<ProtectionLaw, "title" | "cautions">>;
  readonly spread: number;
}): ProtectionLaw {
  checkNumber("protection.overSpread", "spread", spread, { atLeast: 0, atMost: 1 });
  const factors = Array.from({ length: bodies }, (_, at) =>
    Math.exp(spread * normalQuantile((at + 0.5) / bodies)),
  );
  return lawOf(
    (relativeWidth) => factors.reduce((sum, factor) => sum + law(relativeWidth * factor), 0) / bodies,
    {
      title: `${law.title ?? "a law"}, bodies of spread ${spread}`,
      breaks: [],
      cautions: [
        ...(law.cautions ?? []),
        "the spread of bodies is taken as lognormal and the same at every length.",
      ],
    },
  );
}
