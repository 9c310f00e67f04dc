import { curveTraces } from "./curves";
import { type AxisText, linesInWords } from "./lines";
import { axis, layout } from "./look";
import { checkLength, checkSome, type Numbers, shown, symbolOf } from "./numbers";
import type { FigureSpec } from "./spec";

/** The head loss that one equation gives. */
export interface HeadLossCurve {
  readonly name: string;
  /** Head losses in metres. */
  readonly headLoss: Numbers;
  /** Which bars the equation was made for. */
  readonly meantFor: "horizontal bars" | "another bar orientation";
  /** For each value, whether it lies in the equation's tested range. */
  readonly tested: ArrayLike<boolean>;
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
 * is drawn thin and says so; outside its tested range a curve goes on pale and dotted.
 * Throws a `RangeError` where a curve has more or fewer values than the x axis.
 *
 * @example
 * headLossAgainst({ x: { title: "Rack angle", unit: "deg", values: [0.6, 0.8] }, curves: [{ name: "streamwise bars",
 *   headLoss: [0.01, 0.02], meantFor: "horizontal bars", tested: [true, true] }] }).alt
 * // => "Head loss against rack angle. streamwise bars (meant for horizontal bars): rises from 1 cm at 34.4° to 2 cm at 45.8°."
 */
export function headLossAgainst({ title, x, curves, caption }: HeadLossAgainstInput): FigureSpec {
  checkSome("headLossAgainst", "curves", curves);
  checkSome("headLossAgainst", "x.values", x.values);
  for (const { name, headLoss, tested } of curves) {
    checkLength("headLossAgainst", `curve "${name}"`, headLoss, x.values.length);
    checkLength("headLossAgainst", `curve "${name}", tested,`, tested, x.values.length);
  }
  const places = shown(x.values, x.unit);
  const data = curveTraces(
    curves.map(({ name, headLoss, meantFor, tested }) => ({
      name: meantFor === "horizontal bars" ? name : `${name}*`,
      x: places,
      y: shown(headLoss, "cm"),
      tested,
      thin: meantFor !== "horizontal bars",
    })),
  );
  const anyOther = curves.some(({ meantFor }) => meantFor !== "horizontal bars");
  const note = "* thin: an equation meant for another bar orientation";
  return {
    data,
    layout: layout(data, {
      title,
      x: axis(x.title, symbolOf(x.unit)),
      y: axis("Head loss", "cm", { rangemode: "tozero" }),
      note: anyOther ? note : undefined,
    }),
    alt: linesInWords(`Head loss against ${x.title.toLowerCase()}.`, {
      x,
      y: { title: "Head loss", unit: "cm" },
      curves: curves.map(({ name, headLoss, meantFor, tested }) => ({
        name: `${name} (meant for ${meantFor})`,
        values: headLoss,
        tested,
      })),
    }),
    caption,
  };
}
