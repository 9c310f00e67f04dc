import { curveTraces } from "./curves";
import { type AxisText, linesInWords, lowerFirst } from "./lines";
import { axis, layout, legendText } from "./look";
import { checkCount, checkSome, type Numbers, shown, symbolOf } from "./numbers";
import type { FigureSpec } from "./spec";

/** The head loss that one equation gives along a sweep, as `rackLoss.sweepLosses` returns it. */
export interface HeadLossCurve {
  readonly title: string;
  /** Head losses in metres. */
  readonly headLoss: Numbers;
  /** Whether the equation was made for horizontal bars. */
  readonly forHorizontalBars: boolean;
  /** Whether any range that its source tested is known. */
  readonly testedRangeKnown: boolean;
  /** For each value, whether it lies in that range; not read where none is known. */
  readonly withinTestedRange: ArrayLike<boolean>;
}

/** What `headLossAgainst` draws. */
export interface HeadLossAgainstInput {
  readonly title?: string;
  /** What is varied: clear spacing, rack angle, approach velocity … in SI units, and the unit to show. */
  readonly x: AxisText & { readonly values: Numbers };
  readonly curves: readonly HeadLossCurve[];
  readonly caption?: string;
}

/**
 * Head losses by several equations against what is varied.
 *
 * Returns a figure for `figure`, head losses in centimetres. An equation meant for another bar orientation
 * is drawn thin and says so; outside its tested range a curve goes on pale and dotted; one of which no tested
 * range is known has a dagger, which the legend explains.
 * Throws a `RangeError` where a curve has more or fewer values than the x axis.
 *
 * @example
 * headLossAgainst({ x: { title: "Rack angle", unit: "deg", values: [0.6, 0.8] }, curves: [{ title: "own law",
 *   headLoss: [0.01, 0.02], forHorizontalBars: true, testedRangeKnown: true, withinTestedRange: [true, true] }] }).alt
 * // => "Head loss against rack angle. own law (meant for horizontal bars): rises from 1 cm at 34.4° to 2 cm at 45.8°."
 */
export function headLossAgainst({ title, x, curves, caption }: HeadLossAgainstInput): FigureSpec {
  checkSome("headLossAgainst", "curves", curves);
  checkSome("headLossAgainst", "x.values", x.values);
  for (const { title: name, headLoss, withinTestedRange } of curves) {
    checkCount("headLossAgainst", `curve "${name}"`, headLoss, x.values.length);
    checkCount("headLossAgainst", `curve "${name}", withinTestedRange,`, withinTestedRange, x.values.length);
  }
  const places = shown(x.values, x.unit);
  const drawn = curveTraces(
    curves.map((curve) => ({
      name: `${curve.title}${curve.forHorizontalBars ? "" : "*"}${curve.testedRangeKnown ? "" : "†"}`,
      x: places,
      y: shown(curve.headLoss, "cm"),
      tested: testedOf(curve),
      thin: !curve.forHorizontalBars,
    })),
  );
  const anyUnknown = curves.some(({ testedRangeKnown }) => !testedRangeKnown);
  const data = anyUnknown ? [...drawn, legendText("† no tested range known")] : drawn;
  const anyOther = curves.some(({ forHorizontalBars }) => !forHorizontalBars);
  const note = "* thin: an equation meant for another bar orientation";
  return {
    data,
    layout: layout(data, {
      title,
      x: axis(x.title, symbolOf(x.unit)),
      y: axis("Head loss", "cm", { rangemode: "tozero" }),
      note: anyOther ? note : undefined,
    }),
    alt: linesInWords(`Head loss against ${lowerFirst(x.title)}.`, {
      x,
      y: { title: "Head loss", unit: "cm" },
      curves: curves.map((curve) => ({
        name: `${curve.title} (${standing(curve)})`,
        values: curve.headLoss,
        tested: testedOf(curve),
      })),
    }),
    caption,
  };
}

/** Point by point inside the tested range; undefined where no range is known, so that nothing is called outside it. */
const testedOf = ({ testedRangeKnown, withinTestedRange }: HeadLossCurve) =>
  testedRangeKnown ? withinTestedRange : undefined;

function standing({ forHorizontalBars, testedRangeKnown }: HeadLossCurve): string {
  const meantFor = forHorizontalBars ? "meant for horizontal bars" : "meant for another bar orientation";
  return testedRangeKnown ? meantFor : `${meantFor}, no tested range known`;
}
