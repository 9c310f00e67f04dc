import { defineFormula } from "../formula/formula";
import { discharge } from "../formula/input";
import { practice } from "../formula/source";
import { format } from "../quantity/format";
import { u } from "../quantity/u";

interface Claims {
  readonly riverFlow: number;
  readonly designDischarge: number;
  readonly residualFlow: number;
  readonly bypassFlow: number;
}

const waterForTurbines = ({ riverFlow, designDischarge, residualFlow, bypassFlow }: Claims): number =>
  Math.min(designDischarge, Math.max(0, riverFlow - residualFlow - bypassFlow));

/**
 * Flow through the turbines at a flow of the river.
 *
 * Returns the flow in cubic metres per second: what residual flow and bypass leave of the river, at most the design
 * discharge; 0 where that is below the technical minimum. Valid for a run-of-river plant without storage whose residual
 * flow and bypass come before the turbines; the plant's permit says which claim comes first.
 *
 * @example
 * energy.turbineFlow({ riverFlow: u.m3ps(30), designDischarge: u.m3ps(34), residualFlow: u.m3ps(2.5),
 *                      bypassFlow: u.m3ps(1.36), technicalMinimum: u.m3ps(4) }) // => 26.14 m³/s
 */
export const turbineFlow = defineFormula({
  id: "energy.turbineFlow",
  title: "Flow through the turbines",
  symbol: "Q_T",
  result: "discharge",
  inputs: {
    riverFlow: discharge("Q", { atLeast: 0 }),
    designDischarge: discharge("Q_d", { above: 0, note: "of all units together" }),
    residualFlow: discharge("Q_r", { atLeast: 0, note: "left to the old river course" }),
    bypassFlow: discharge("Q_b", { atLeast: 0 }),
    technicalMinimum: discharge("Q_{min}", {
      atLeast: 0,
      note: "the smallest turbine flow at which a unit runs",
    }),
  },
  steps: {
    available: {
      title: "Water for the turbines",
      symbol: "Q_a",
      result: "discharge",
      tex: (q) =>
        `\\min\\left(${q.designDischarge},\\ \\max\\left(0,\\ ${q.riverFlow} - ${q.residualFlow} - ${q.bypassFlow}\\right)\\right)`,
      evaluate: waterForTurbines,
    },
  },
  tex: (q, { available }) =>
    `\\begin{cases} ${available} & ${available} \\ge ${q.technicalMinimum} \\\\ ` +
    `0 & ${available} < ${q.technicalMinimum} \\end{cases}`,
  source: practice("residual flow and bypass first, the rest to the turbines; the plant's permit decides"),
  validity: "run-of-river plants without storage",
  caution: ({ technicalMinimum, designDischarge }) =>
    technicalMinimum > designDischarge
      ? [
          `technical minimum is ${format(u.m3ps(technicalMinimum), "m3ps")}, above the design discharge of ` +
            `${format(u.m3ps(designDischarge), "m3ps")}: the turbines never run.`,
        ]
      : [],
  evaluate: (flows) => {
    const available = waterForTurbines(flows);
    return available < flows.technicalMinimum ? 0 : available;
  },
});
