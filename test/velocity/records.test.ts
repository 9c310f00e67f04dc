import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { pointRecord, probeRecord } from "../../kernel-helpers/src/velocity";
import { readTable } from "../../kernel-helpers/src/records/readTable";
import { checkRecords, RecordsError } from "../../kernel-helpers/src/records";

const head = "pointId,time [s],velocityX [m/s],velocityY [m/s],velocityZ [m/s],correlation\n";
const pointHead = "pointId,layout,x [m],y [m],z [m],velocityX [m/s],velocityY [m/s],velocityZ [m/s]\n";
const faultsOf = async (text: string, schema: typeof probeRecord | typeof pointRecord): Promise<string[]> => {
  const table = await readTable(new TextEncoder().encode(text), "probe.csv", {});
  try {
    checkRecords(table, schema);
  } catch (error) {
    if (error instanceof RecordsError) return error.offences.map(({ sentence }) => sentence);
    throw error;
  }
  return [];
};

describe("the records of velocities", () => {
  test("read the demo plant's files", async () => {
    const folder = new URL("../../data-demo/", import.meta.url);
    for (const [name, schema] of [
      ["velocity-points.csv", pointRecord],
      ["probe-records.csv", probeRecord],
    ] as const) {
      expect(await faultsOf(readFileSync(new URL(name, folder), "utf8"), schema)).toEqual([]);
    }
  });

  test("refuse a correlation beyond 100 and times that stand twice or out of order, point by point", async () => {
    const rows = [
      "A,0,1,0,0,90",
      "B,0,1,0,0,90",
      "A,0.04,1,0,0,101",
      "A,0.04,1,0,0,90",
      "B,0.04,1,0,0,90",
      "A,0.02,1,0,0,90",
    ];
    const faults = await faultsOf(head + rows.join("\n"), probeRecord);
    expect(faults).toEqual([
      expect.stringMatching(/probe.csv:4, column correlation.*101/),
      expect.stringMatching(/probe.csv:5, column time.*has the same time as the one in line 4/),
      expect.stringMatching(/probe.csv:7, column time.*comes before the one in line 4/),
    ]);
  });

  test("refuse two points of a layout at one place", async () => {
    const rows = ["A,one,0,0.5,0.3,0.5,0,0", "B,two,0,0.5,0.3,0.5,0,0", "C,one,0,0.5,0.3,0.5,0,0"];
    const faults = await faultsOf(pointHead + rows.join("\n"), pointRecord);
    expect(faults).toEqual([expect.stringMatching(/:4.*line 2 has the same layout, x, y, z/)]);
  });
});
