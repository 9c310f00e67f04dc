// What a reader waits for: the module, the kernel, every notebook of the course, every cell. Run with `npm run bench`.
import { spawnSync } from "node:child_process";
import { createRequire } from "node:module";
import { availableParallelism, cpus } from "node:os";
import { performance } from "node:perf_hooks";

const require = createRequire(import.meta.url);
const workshop = (name) => require(`../../kernel-helpers/dist/workshop/${name}.js`);
const { Kernel } = workshop("kernel");
const { runNotebooks } = workshop("runMany");
const { courseNotebooks, notebookName } = workshop("notebookNames");

const median = (values) => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)];

console.log(`${cpus()[0].model}, ${availableParallelism()} processors, Node ${process.version}`);

const loading = `const { performance } = require("node:perf_hooks"); const start = performance.now();
require(${JSON.stringify(require.resolve("kernel-helpers"))}); console.log(performance.now() - start);`;
const loads = Array.from({ length: 7 }, () =>
  Number(spawnSync(process.execPath, ["-e", loading], { encoding: "utf8" }).stdout),
);
console.log(`the module loads in ${median(loads).toFixed(0)} ms (median of ${loads.length})`);

const ready = [];
for (let time = 0; time < 3; time++) {
  const kernel = await Kernel.start(process.cwd());
  ready.push(kernel.secondsToReady);
  await kernel.shutdown();
}
console.log(`the kernel is ready in ${median(ready).toFixed(2)} s (median of ${ready.length})`);

const start = performance.now();
const runs = await runNotebooks(courseNotebooks());
const together = (performance.now() - start) / 1000;
for (const { path, failures } of runs)
  if (failures.length > 0) throw new Error(`${notebookName(path)} failed: ${failures[0].message}`);
const cells = runs.flatMap(({ path, cells: all }) =>
  all.map(({ seconds }, at) => ({ name: notebookName(path), cell: at + 1, seconds })),
);
const quick = cells.filter(({ seconds }) => seconds < 0.5).length;
console.log(`${runs.length} notebooks run in ${together.toFixed(0)} s, two at a time`);
console.log(`${((100 * quick) / cells.length).toFixed(1)} % of ${cells.length} cells take under 0.5 s`);
for (const { path, seconds } of runs.toSorted((a, b) => b.seconds - a.seconds).slice(0, 5))
  console.log(`  ${notebookName(path)}: ${seconds.toFixed(1)} s`);
for (const { name, cell, seconds } of cells.toSorted((a, b) => b.seconds - a.seconds).slice(0, 12))
  console.log(`  ${name}, code cell ${cell}: ${seconds.toFixed(2)} s`);
