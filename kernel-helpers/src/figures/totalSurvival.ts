import { type Band, bandInWords, bandTraces, checkBand } from "./band";
import { curveTraces } from "./curves";
import { labelBoard } from "./labels";
import { axis, helpLine, layout, points } from "./look";
import { checkCount, checkSome, course, listed, type Numbers, said, shown } from "./numbers";
import { shareAxis, shareRange } from "./shareAxis";
import type { FigureSpec } from "./spec";

/**
 * Total survival for one clear spacing, or one reading of what happens to protected fish: a result of
 * `survival.bySizeClass` with a name and the minima of `survival.localMinima`.
 */
export interface TotalSurvivalCurve {
  readonly name: string;
  readonly totalSurvival: Numbers;
  /** What the uncertainty of the protection curve leaves: `survival.band`. */
  readonly band?: Band;
  /** For each length, whether the turbine's law was tested there. */
  readonly tested?: ArrayLike<boolean>;
  /** Every local minimum over length; none where the list is empty. */
  readonly minima: readonly { readonly totalLength: number; readonly totalSurvival: number }[];
}

/** What `totalSurvival` draws. */
export interface TotalSurvivalInput {
  readonly title?: string;
  /** Total lengths in metres. */
  readonly totalLength: Numbers;
  readonly curves: readonly TotalSurvivalCurve[];
  /** The length in metres from which fish are as wide as the gap. */
  readonly barrierLength?: number;
  readonly caption?: string;
}

/**
 * Total survival against total length, with every local minimum marked, and stated in the legend.
 *
 * Returns a figure for `figure`: lengths in centimetres along the axis, in millimetres in words, as clear spacings are.
 * Throws a `RangeError` where a curve has more or fewer values than there are lengths.
 *
 * @example
 * totalSurvival({ totalLength: [0.1, 0.2, 0.3], curves: [{ name: "18 mm", totalSurvival: [0.9, 0.7, 1],
 *   minima: [{ totalLength: 0.2, totalSurvival: 0.7 }] }] }).alt
 * // => "Total survival against total length for 18 mm. 18 mm: local minimum 0.7 at 200 mm."
 */
export function totalSurvival(input: TotalSurvivalInput): FigureSpec {
  const { title, totalLength, curves, barrierLength, caption } = input;
  checkSome("totalSurvival", "totalLength", totalLength);
  checkSome("totalSurvival", "curves", curves);
  for (const { name, totalSurvival: survival, tested, band } of curves) {
    checkBand("totalSurvival", name, band, totalLength.length);
    checkCount("totalSurvival", `curve "${name}"`, survival, totalLength.length);
    if (tested !== undefined)
      checkCount("totalSurvival", `curve "${name}", tested,`, tested, totalLength.length);
  }
  const x = shown(totalLength, "cm");
  const rows = curves.map((one) => ({ x, y: shown(one.totalSurvival, "") }));
  const lines = curveTraces(
    rows.map((row, i) => ({ ...row, name: withMinima(curves[i]), tested: curves[i].tested })),
  );
  const marks = curves.flatMap(({ name, minima }, i) =>
    minima.length === 0
      ? []
      : [
          {
            ...points(i, 13),
            name: `${name}, local minimum`,
            showlegend: false,
            x: minima.map((one) => 100 * one.totalLength),
            y: minima.map((one) => one.totalSurvival),
          },
        ],
  );
  const bands = curves.flatMap(({ band }, i) => bandTraces(x, band, i));
  const data = [...bands, ...lines, ...marks];
  const range = shareRange(
    curves.flatMap(({ totalSurvival: own, band }) => [own, ...(band ? [band.lower, band.upper] : [])]),
  );
  const lengths = x.filter((value) => value !== null);
  const span: [number, number] = [Math.min(...lengths), Math.max(...lengths)];
  const barrier = barrierLength === undefined ? [] : [100 * barrierLength];
  const board = labelBoard({ x: span, y: range, busy: rows });
  return {
    data,
    layout: layout(data, {
      title,
      x: axis("Total length", "cm", { range: span }),
      y: shareAxis("Total survival", range),
      shapes: barrier.map((at) => helpLine("x", at)),
      annotations: barrier.map((at) =>
        board.verticalLine({ x: at, text: `barrier length ${said(at / 100, "mm")}` }),
      ),
      legendForOne: true,
    }),
    alt: inWords(totalLength, curves, barrierLength),
    caption,
  };
}

/** A curve's name with what a reader looks for first; labels at the curves would cover them. */
function withMinima({ name, minima }: TotalSurvivalCurve): string {
  if (minima.length === 0) return `${name}: no minimum`;
  return `${name}: minimum ${minimaInWords(minima)}`;
}

const minimaInWords = (minima: TotalSurvivalCurve["minima"]): string =>
  listed(minima.map((one) => `${said(one.totalSurvival, "")} at ${said(one.totalLength, "mm")}`));

function inWords(
  totalLength: Numbers,
  curves: readonly TotalSurvivalCurve[],
  barrierLength: number | undefined,
): string {
  const opening = `Total survival against total length for ${listed(curves.map(({ name }) => name))}.`;
  const sentences = curves.map(({ name, totalSurvival: survival, minima, band }) => {
    if (minima.length === 0) {
      const run = course({ values: totalLength, unit: "mm" }, { values: survival, unit: "" });
      return `${name}: no local minimum; ${run}${bandInWords(band)}.`;
    }
    return `${name}: local ${minima.length === 1 ? "minimum" : "minima"} ${minimaInWords(minima)}${bandInWords(band)}.`;
  });
  const barrier =
    barrierLength === undefined ? [] : [`Fish from ${said(barrierLength, "mm")} are as wide as the gap.`];
  return [opening, ...sentences, ...barrier].join(" ");
}
