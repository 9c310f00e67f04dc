import { figures, trial } from "kernel-helpers";
import { describe, expect, it } from "vitest";

const made = trial.plan({
  factors: { cue: ["none", "<b>light</b>"], velocity: [0.3, 0.6] },
  replicates: 3,
  fishPerRun: 4,
  runsPerDay: 5,
  batches: [{ name: "roach-1", fish: 60 }],
  controls: [{ name: "no rack", per: "day", runs: 1 }],
  seed: 1,
});

const tracesOf = (spec: figures.FigureSpec) =>
  spec.data.map(({ name, x, y }) => ({ name, x: x as number[], y: y as number[] })); // numbers, as the builder wrote them

describe("figures.trialPlan", () => {
  it("puts each run once at its day and place, controls under a sign of their own", () => {
    const traces = tracesOf(figures.trialPlan({ plan: made }));
    const drawn = traces.flatMap(({ x, y }) => x.map((day, at) => `${day}/${y[at]}`));
    expect(drawn.toSorted()).toEqual(made.runs.map((run) => `${run.day}/${run.place}`).toSorted());
    expect(traces.map((one) => one.name)).toEqual(["none", "&lt;b&gt;light&lt;/b&gt;", "control"]);
    expect(traces[2].x).toHaveLength(3);
  });

  it("signs the levels of the factor asked for and says in words how even they are", () => {
    const spec = figures.trialPlan({ plan: made, by: "velocity", named: (level) => `${level} m/s` });
    expect(tracesOf(spec).map((one) => one.name)).toEqual(["0.3 m/s", "0.6 m/s", "control"]);
    expect(spec.alt).toBe(
      "Plan of 15 runs on 3 days in 1 batch, by velocity. 0.3 m/s: 6 runs; 0.6 m/s: 6 runs; controls: 3 runs. " +
        "Every day holds as many of each level as its number of runs allows.",
    );
  });

  it("says where days are less even than they could be", () => {
    const sorted = made.runs.toSorted((a, b) => Number(a.velocity) - Number(b.velocity));
    const runs = sorted.map((run, at) => ({ ...run, day: made.runs[at].day, place: made.runs[at].place }));
    expect(figures.trialPlan({ plan: { ...made, runs }, by: "velocity" }).alt).toMatch(
      /days? (is|are) less even/,
    );
  });

  it("refuses a plan without runs and a factor that it doesn't have", () => {
    expect(() => figures.trialPlan({ plan: { ...made, runs: [] } })).toThrow("trialPlan: plan has no runs");
    const other: string = "spacing";
    expect(() => figures.trialPlan({ plan: made, by: other as "cue" })).toThrow(
      'trialPlan: by is "spacing"; the plan\'s factors are cue, velocity.',
    );
  });
});
