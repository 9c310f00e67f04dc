// A catchment screened: the loop alone in this process, then the whole command with one worker and with all cores.
// Run with `npm run bench`; `node test/bench/screening.mjs 5000` screens another number of plants.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { availableParallelism, tmpdir } from "node:os";
import { join } from "node:path";
import { performance } from "node:perf_hooks";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));
const require = createRequire(import.meta.url);
const workshop = join(root, "kernel-helpers", "dist", "workshop");
const { checkBatch, textBatches } = require(join(workshop, "screening", "plantsFile.js"));
const { classLengths } = require(join(workshop, "screening", "settings.js"));
const { readScreeningOrder } = require(join(workshop, "screening", "options.js"));
const { screenPlant } = require(join(workshop, "screening", "sweep.js"));

const plants = Number(process.argv[2] ?? 600);
const draws = 1000;
const classes = 40;
const cores = availableParallelism();

const folder = mkdtempSync(join(tmpdir(), "bench-"));
try {
  const [head, ...rows] = readFileSync(join(root, "data-demo", "catchment-plants.csv"), "utf8")
    .trimEnd()
    .split("\n");
  const many = Array.from({ length: plants }, (_, at) =>
    rows[at % rows.length].replace(/^[^,]*/, `P${at + 1}`),
  );
  const file = join(folder, "plants.csv");
  writeFileSync(file, `${[head, ...many].join("\n")}\n`);
  const [species, ...all] = readFileSync(join(root, "data-demo", "species.csv"), "utf8")
    .trimEnd()
    .split("\n");
  writeFileSync(join(folder, "species.csv"), `${[species, ...all.slice(0, 6)].join("\n")}\n`);
  const options = ["--species", "species.csv", "--draws", `${draws}`, "--classes", `${classes}`];
  const evaluations = plants * 6 * classes * draws;
  const millions = (seconds, count = evaluations) =>
    `${(count / seconds / 1e6).toFixed(1)} million class evaluations a second`;
  console.log(`${plants} plants × 6 species × ${classes} classes × ${draws} draws`);

  const { settings } = await readScreeningOrder([file, ...options], folder);
  const lengths = classLengths(settings);
  for await (const batch of textBatches(file, 60)) {
    const { plants: some } = await checkBatch(file, batch);
    for (const plant of some.slice(0, 5)) screenPlant(plant, settings, lengths);
    const start = performance.now();
    const { user } = process.cpuUsage();
    for (const plant of some) screenPlant(plant, settings, lengths);
    const seconds = (performance.now() - start) / 1000;
    const count = some.length * 6 * classes * draws;
    console.log(`the loop alone, one core   ${millions(seconds, count)}`);
    console.log(`  by the time on the core  ${millions((process.cpuUsage().user - user) / 1e6, count)}`);
    break;
  }

  const run = (workers) => {
    const start = performance.now();
    const out = `out-${workers}.csv`;
    const words = [
      join(workshop, "screen.js"),
      file,
      ...options,
      "--workers",
      `${workers}`,
      "--out",
      out,
      "--plants-in-part",
      "25",
    ];
    const { status, stderr } = spawnSync(process.execPath, words, {
      cwd: folder,
      env: { ...process.env, INIT_CWD: folder },
      encoding: "utf8",
    });
    if (status !== 0) throw new Error(`the screening ended with ${status}: ${stderr}`);
    const seconds = (performance.now() - start) / 1000;
    console.log(
      `${workers} ${workers === 1 ? "worker " : "workers"}                  ${seconds.toFixed(1)} s, ${millions(seconds)}`,
    );
    return { seconds, bytes: readFileSync(join(folder, out), "utf8") };
  };
  const one = run(1);
  const more = run(Math.max(2, cores));
  console.log(
    `${(one.seconds / more.seconds).toFixed(2)} times as fast with ${Math.max(2, cores)} workers on ${cores} cores; the bytes are ${one.bytes === more.bytes ? "the same" : "NOT the same"}`,
  );
  if (one.bytes !== more.bytes) process.exitCode = 1;
} finally {
  rmSync(folder, { recursive: true });
}
