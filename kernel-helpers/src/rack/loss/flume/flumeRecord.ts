import { defineSchema, type RowOf, withRules } from "../../../schema";

/** What a run was made for: a rack's loss, the friction of the empty flume, or the offset of the gauges in still water. */
export const flumeRuns = ["rack", "empty", "still"] as const;

const rackColumns = [
  "barShape",
  "barThickness",
  "clearSpacing",
  "supportShare",
  "rackAngle",
  "overlayShare",
] as const;

const rackPart = { atLeast: 0, below: 1, optional: true } as const;

/** The record of a flume in which racks are measured: one row a run, readings as they were taken. */
export const flumeRecord = withRules(
  defineSchema({
    title: "runs of racks in a flume",
    columns: {
      runId: { kind: "text", unique: true, note: "the run's label" },
      date: { kind: "day", note: "the day of the run" },
      run: {
        kind: "choice",
        oneOf: flumeRuns,
        note: "with a rack; in the empty flume; without rack and flow",
      },
      configuration: { kind: "text", note: "the same for runs that repeat each other" },
      barShape: { kind: "text", optional: true, note: "shape of the bars, such as rectangular" },
      barThickness: { kind: "quantity", unit: "mm", above: 0, optional: true, note: "thickness of the bars" },
      clearSpacing: { kind: "quantity", unit: "mm", above: 0, optional: true, note: "between the bars" },
      supportShare: { kind: "number", ...rackPart, note: "share of the gaps behind supports and spacers" },
      rackAngle: {
        kind: "quantity",
        unit: "deg",
        above: 0,
        atMost: 90,
        optional: true,
        note: "in plan between rack and flow",
      },
      overlayShare: {
        kind: "number",
        ...rackPart,
        note: "share of the rack's height under bottom and top overlays",
      },
      flumeWidth: { kind: "quantity", unit: "m", above: 0, note: "width of the horizontal flume" },
      temperature: { kind: "quantity", unit: "degC", atLeast: 0, atMost: 40, note: "of the water" },
      discharge: { kind: "quantity", unit: "Lps", atLeast: 0, note: "as the meter shows it" },
      upstreamLevel: { kind: "quantity", unit: "mm", above: 0, note: "above the bottom, before the rack" },
      downstreamLevel: { kind: "quantity", unit: "mm", above: 0, note: "above the bottom, behind the rack" },
    },
  }),
  [
    {
      columns: ["discharge", "run"],
      allowed: "0 in still water and above 0 in the other runs",
      fault: ({ run, discharge }) =>
        (run === "still") === (discharge === 0)
          ? undefined
          : run === "still"
            ? "water flows in a run in still water; correct the discharge or the kind of run."
            : `no water flows in a run "${run}"; correct the discharge or the kind of run.`,
    },
    ...rackColumns.map(
      (column) =>
        ({
          columns: [column, "run"],
          allowed: "given for a run with a rack, empty for the others",
          fault: (row) => {
            const given = row[column] !== undefined;
            if (given === (row.run === "rack")) return undefined;
            return given
              ? `the run "${row.run}" has a ${column}; empty the cell or correct the kind of run.`
              : `the rack of this run has no ${column}; add it.`;
          },
        }) as const satisfies {
          readonly columns: readonly [typeof column, "run"];
          readonly allowed: string;
          readonly fault: (row: FlumeRow) => string | undefined;
        },
    ),
  ],
);

type FlumeRow = Readonly<Record<(typeof rackColumns)[number], unknown>> & { readonly run: string };

/** One row of `rackLoss.flumeRecord`. */
export type FlumeRecordRow = RowOf<typeof flumeRecord>;
