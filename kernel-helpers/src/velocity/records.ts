import { defineSchema, uniqueTogether, withRules } from "../schema";

/** The record of mean velocities: one row a point of a layout. */
export const pointRecord = withRules(
  defineSchema({
    title: "mean velocities at points",
    columns: {
      pointId: { kind: "text", unique: true, note: "name of the point" },
      layout: { kind: "text", note: "layout in which it was measured" },
      x: { kind: "quantity", unit: "m", note: "along the flow, 0 at the upstream end of the rack" },
      y: { kind: "quantity", unit: "m", note: "across the flow" },
      z: { kind: "quantity", unit: "m", atLeast: 0, note: "above the bottom" },
      velocityX: { kind: "quantity", unit: "mps", note: "mean of the component along the flow" },
      velocityY: { kind: "quantity", unit: "mps", note: "across the flow, positive to larger y" },
      velocityZ: { kind: "quantity", unit: "mps", note: "upwards" },
    },
  }),
  [uniqueTogether("layout", "x", "y", "z")],
);

const probeColumns = defineSchema({
  title: "samples of a velocity probe",
  columns: {
    pointId: { kind: "text", note: "name of the point" },
    time: { kind: "quantity", unit: "s", atLeast: 0, note: "from the beginning of the record" },
    velocityX: { kind: "quantity", unit: "mps", note: "component along the flow" },
    velocityY: { kind: "quantity", unit: "mps", note: "across the flow" },
    velocityZ: { kind: "quantity", unit: "mps", note: "upwards" },
    correlation: {
      kind: "number",
      atLeast: 0,
      atMost: 100,
      note: "correlation of the probe's signal, in per cent",
    },
  },
});

/** The record of raw samples: one row a sample, those of a point in order of time. */
export const probeRecord = withRules(probeColumns, [
  {
    columns: ["time", "pointId"],
    allowed: "later than the sample before it at the same point",
    faults(rows, lineOf) {
      const last = new Map<string, number>();
      return rows.flatMap(({ pointId, time }, index) => {
        const earlier = last.get(pointId);
        if (earlier === undefined || time > rows[earlier].time) {
          last.set(pointId, index);
          return [];
        }
        const relation = time === rows[earlier].time ? "has the same time as" : "comes before";
        return [
          {
            index,
            fault: `the sample of ${pointId} ${relation} the one in line ${lineOf(earlier)}; sort the samples by time, and keep one of two.`,
          },
        ];
      });
    },
  },
]);
