import { clogging, figures, u } from "kernel-helpers";

/** A year of debris at a small plant, with a machine that breaks down in the leaf season. */
const days = Array.from({ length: 365 }, (_, at): clogging.DebrisDay => {
  const autumn = Math.exp(-0.5 * ((at - 300) / 16) ** 2);
  const flow = u.m3ps(20 + 15 * Math.cos((2 * Math.PI * (at - 60)) / 365));
  return {
    date: new Date(Date.UTC(2023, 0, 1 + at)).toISOString().slice(0, 10),
    riverFlow: flow,
    turbineFlow: flow,
    debris: { leaves: u.kg(60 + 700 * autumn) },
  };
});
const inputs: clogging.CloggingInputs = {
  days,
  rack: {
    rackArea: u.m2(100),
    channelArea: u.m2(60),
    clearSpacing: u.mm(18),
    cleanLossCoefficient: 0.5,
    coefficients: { scale: 6, loadExponent: 1.3, spacingExponent: 0.5 },
  },
  cleaning: {
    threshold: u.m(0.1),
    shortestInterval: u.h(1),
    reach: 0.95,
    greatestLoss: u.m(0.3),
    outOfOrder: [{ from: "2023-11-06", to: "2023-11-12" }],
  },
  assumptions: { stickingShare: 0.4, leafEquivalents: { leaves: 1 } },
};
const run = clogging.headLossOverTime(inputs);
const thresholds = [0.02, 0.04, 0.06, 0.08, 0.1, 0.13, 0.16, 0.2];

/** The figures of clogging and cleaning. */
export const cloggingFigures: Readonly<Record<string, figures.FigureSpec>> = {
  headLossOverTime: figures.headLossOverTime({
    title: "A year with a broken machine",
    days: run.days,
    threshold: u.m(0.1),
  }),
  "headLossOverTime without cleaning": figures.headLossOverTime({
    days: run.days.slice(0, 60).map((day) => ({ ...day, cleanings: 0 })),
  }),
  cleaningTradeOff: figures.cleaningTradeOff({
    title: "When should the machine start?",
    thresholds,
    energies: [
      { name: "head loss of debris", values: thresholds.map((one) => 1e12 * one) },
      { name: "flushing", values: thresholds.map((one) => 3e9 / one) },
      { name: "both", values: thresholds.map((one) => 1e12 * one + 3e9 / one) },
    ],
    cleanings: thresholds.map((one) => 12 / one),
  }),
};
