import type { Angle, Length, PlainNumber, Velocity } from "../../../quantity/dimension";
import { compareLosses, type LossMark } from "../compareLosses";
import type { BarProfile } from "../rackDescription";
import { velocityHead } from "../velocityHead";
import type { LawFit } from "./law";

const caller = "rackLoss.judgeEquations";

/** What judging needs of a measured run. */
export interface JudgedRun {
  readonly barShape: string;
  readonly barThickness: Length;
  readonly clearSpacing: Length;
  readonly supportShare: PlainNumber;
  readonly rackAngle: Angle;
  readonly overlayShare?: PlainNumber | undefined;
  readonly approachVelocity: Velocity;
  readonly lossCoefficient: PlainNumber;
}

/** One equation beside measured runs, all in loss coefficients. */
export interface EquationJudgement {
  readonly id: string;
  readonly title: string;
  readonly meantFor: string;
  readonly forHorizontalBars: boolean;
  /** Every mark that it got at one of the runs. */
  readonly marks: readonly (LossMark | "fitted to these runs")[];
  readonly runs: number;
  /** Runs that the equation refused. */
  readonly refused: number;
  /** Mean of predicted minus measured; undefined where it refused all runs. */
  readonly bias: number | undefined;
  /** Root of the mean square of predicted minus measured. */
  readonly rmse: number | undefined;
  /** Mean of predicted over measured, minus 1. */
  readonly relativeBias: number | undefined;
}

const profileOf = (barShape: string): BarProfile =>
  barShape === "rectangular" ? "rectangular" : "hydrodynamic";

interface Answer {
  readonly predicted: number | undefined;
  readonly measured: number;
}

/**
 * Sets the published head-loss equations beside measured racks with horizontal bars.
 *
 * Returns one row an equation, with its marks, its bias and root mean square error in the loss coefficient; with a fit, its
 * law comes first. No published equation knows overlays, so runs with overlays are left out, and the count says how
 * many remain. The published laws know two profiles: rectangular bars, and all others as hydrodynamic. Throws a
 * RangeError where no run without overlays is left, or a run can't be a rack.
 *
 * @example
 * rackLoss.judgeEquations([{ barShape: "rectangular", barThickness: u.mm(8), clearSpacing: u.mm(18), supportShare: 0,
 *   rackAngle: u.deg(90), approachVelocity: u.mps(0.5), lossCoefficient: 0.7 }]).length // => 9
 */
export function judgeEquations(
  runs: readonly JudgedRun[],
  { fit }: { readonly fit?: LawFit } = {},
): readonly EquationJudgement[] {
  const bare = runs.filter(({ overlayShare = 0 }) => overlayShare === 0);
  if (bare.length === 0) {
    throw new RangeError(
      `${caller}: of ${runs.length} runs none is without overlays; the published equations know no overlays.`,
    );
  }
  const rows = bare.map((run) => ({ run, answers: compareLosses(describe(run)) }));
  const published = rows[0].answers.map(({ id, title, meantFor, forHorizontalBars }, at) => {
    const own = rows.map(({ run, answers }) => ({ run, answer: answers[at] }));
    return {
      id,
      title,
      meantFor,
      forHorizontalBars,
      marks: [...new Set(own.flatMap(({ answer }) => answer.marks))],
      ...judge(
        own.map(({ run, answer: { headLoss } }) => ({
          predicted: headLoss === undefined ? undefined : headLoss / velocityHead(run.approachVelocity),
          measured: run.lossCoefficient,
        })),
      ),
    };
  });
  return fit === undefined ? published : [ownLaw(fit, bare), ...published];
}

const describe = (run: JudgedRun) => ({
  barThickness: run.barThickness,
  clearSpacing: run.clearSpacing,
  supportShare: run.supportShare,
  rackAngle: run.rackAngle,
  approachVelocity: run.approachVelocity,
  barProfile: profileOf(run.barShape),
});

function ownLaw(fit: LawFit, runs: readonly JudgedRun[]): EquationJudgement {
  const known = fit.runs.filter(({ overlayShare }) => overlayShare === 0);
  if (known.length !== runs.length) {
    throw new RangeError(
      `${caller}: the fit has ${known.length} runs without overlays and the list ${runs.length}; give the runs that were fitted.`,
    );
  }
  return {
    id: "rackLoss.fitted",
    title: "Fitted law",
    meantFor: "the racks of these runs",
    forHorizontalBars: true,
    marks: ["meant for horizontal bars", "fitted to these runs"],
    ...judge(known.map(({ predicted, lossCoefficient }) => ({ predicted, measured: lossCoefficient }))),
  };
}

function judge(answers: readonly Answer[]) {
  const given = answers.flatMap(({ predicted, measured }) =>
    predicted === undefined ? [] : [{ predicted, measured }],
  );
  const mean = (read: (one: { readonly predicted: number; readonly measured: number }) => number) =>
    given.length === 0 ? undefined : given.reduce((sum, one) => sum + read(one), 0) / given.length;
  const square = mean(({ predicted, measured }) => (predicted - measured) ** 2);
  return {
    runs: given.length,
    refused: answers.length - given.length,
    bias: mean(({ predicted, measured }) => predicted - measured),
    rmse: square === undefined ? undefined : Math.sqrt(square),
    relativeBias: mean(({ predicted, measured }) => predicted / measured - 1),
  };
}
