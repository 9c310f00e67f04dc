import { figures, rack, survey, u } from "kernel-helpers";

/** A survey of forty plants with every spelling of trouble: missing, set aside, not due. */
const { builtRackQuestions: questions } = survey;
const spacings = [10, 12, 15, 15, 20, 30];
const written = Array.from({ length: 40 }, (_, i) => ({
  plantId: `P${i}`,
  ...Object.fromEntries(Object.keys(questions).map((name, at) => [name, (i + at) % 5 === 0 ? "" : "none"])),
  head: "4 m",
  rackAngle: `${30 + ((7 * i) % 23)} deg`,
  clearSpacing: i === 3 ? "18 m" : `${spacings[i % 6]} mm`,
  bypass: i % 3 === 0 ? "no" : "yes",
  bypassDischarge: "",
}));
const cleaned = survey.clean(written);
const spacing = cleaned.rows.map(({ clearSpacing }) => clearSpacing);
const angle = cleaned.rows.map(({ rackAngle }) => rackAngle);
const edges = {
  spacing: [5, 11, 13, 17, 25, 35].map((value) => u.mm(value)),
  angle: [25, 35, 45, 60].map((value) => u.deg(value)),
};

const channel = {
  channelWidth: u.m(12),
  waterDepth: u.m(2.4),
  discharge: u.m3ps(14),
  barThickness: u.mm(8),
};

/** The figures of survey and scale. */
export const surveyFigures: Readonly<Record<string, figures.FigureSpec>> = {
  answersByQuestion: figures.answersByQuestion({
    title: "Seventeen questions on forty sheets",
    responses: survey.nonResponse(cleaned),
  }),
  histogram: figures.histogram({
    title: "Rack angle of the plants",
    x: { title: "Rack angle", unit: "deg" },
    values: cleaned.column("rackAngle"),
    edges: [25, 30, 35, 40, 45, 50, 55, 60].map((value) => u.deg(value)),
    counted: "plants",
    marks: [
      { at: u.deg(41), text: "median" },
      { at: u.deg(45), text: "rule of practice" },
    ],
  }),
  builtCombinations: figures.builtCombinations({
    title: "Built combinations of spacing and angle",
    x: { title: "Clear spacing", unit: "mm", values: spacing },
    y: { title: "Rack angle", unit: "deg", values: angle },
    combinations: survey.combinations(
      { values: spacing, edges: edges.spacing },
      { values: angle, edges: edges.angle },
    ),
  }),
  "builtCombinations with gaps": figures.builtCombinations({
    x: {
      title: "Clear spacing",
      unit: "mm",
      values: [10, 10, 30, 30].flatMap((v) => Array.from({ length: 12 }, () => u.mm(v))),
    },
    y: {
      title: "Rack angle",
      unit: "deg",
      values: [30, 30, 50, 50].flatMap((v) => Array.from({ length: 12 }, () => u.deg(v))),
    },
    combinations: survey.combinations(
      {
        values: [10, 10, 30, 30].flatMap((v) => Array.from({ length: 12 }, () => u.mm(v))),
        edges: [5, 20, 40].map((v) => u.mm(v)),
      },
      {
        values: [30, 30, 50, 50].flatMap((v) => Array.from({ length: 12 }, () => u.deg(v))),
        edges: [25, 40, 60].map((v) => u.deg(v)),
      },
    ),
  }),
  "modelScale without a scale that fits": figures.modelScale({
    title: "A model of the whole channel",
    scales: rack.modelScales({
      ...channel,
      flume: { width: u.m(1.5), depth: u.m(0.8), discharge: u.Lps(300) },
    }),
    discharge: channel.discharge,
  }),
  "modelScale with a band of scales": figures.modelScale({
    scales: rack.modelScales({
      ...channel,
      barThickness: u.mm(20),
      flume: { width: u.m(6), depth: u.m(1.5), discharge: u.m3ps(3) },
    }),
    discharge: channel.discharge,
  }),
};
