// One million detections of fish: read and checked, then grouped by fish. Run with `npm run bench`.
import { appendFileSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { performance } from "node:perf_hooks";
import helpers from "kernel-helpers";

const { defineSchema, frame, readRecords } = helpers;
const count = 1_000_000;
const receivers = ["R0", "R1", "R2", "R3", "R4", "R5", "R6"];
const detections = defineSchema({
  title: "detections",
  columns: {
    fishId: { kind: "text" },
    time: { kind: "quantity", unit: "s", atLeast: 0 },
    x: { kind: "quantity", unit: "m" },
    y: { kind: "quantity", unit: "m" },
    receiver: { kind: "choice", oneOf: receivers },
  },
});

const line = (row) => {
  const x = (5 + 5 * Math.sin(row)).toFixed(3);
  const y = (0.75 + 0.75 * Math.cos(1.7 * row)).toFixed(3);
  return `F${Math.floor(row / 2500)},${(row % 2500) * 2},${x},${y},${receivers[row % receivers.length]}`;
};

const folder = mkdtempSync(join(tmpdir(), "bench-"));
try {
  process.chdir(folder);
  writeFileSync("detections.csv", "fishId,time [s],x [m],y [m],receiver\n");
  for (let first = 0; first < count; first += 10_000) {
    const lines = Array.from({ length: 10_000 }, (_, row) => line(first + row));
    appendFileSync("detections.csv", `${lines.join("\n")}\n`);
  }
  const before = process.resourceUsage().maxRSS;
  const start = performance.now();
  const records = await readRecords("detections.csv", detections);
  const read = performance.now();
  const groups = (await frame(records)).groupBy("fishId").aggregate({ x: ["count", "mean"], time: ["max"] });
  const end = performance.now();
  console.log(`${records.count} records, ${groups.count} fish`);
  console.log(`read and checked ${((read - start) / 1000).toFixed(2)} s`);
  console.log(`grouped ${((end - read) / 1000).toFixed(2)} s`);
  console.log(`together ${((end - start) / 1000).toFixed(2)} s`);
  console.log(
    `most memory ${Math.round(process.resourceUsage().maxRSS / 1000)} MB, of which ${Math.round(before / 1000)} MB before reading`,
  );
} finally {
  process.chdir(tmpdir());
  rmSync(folder, { recursive: true });
}
