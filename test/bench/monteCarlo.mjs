// Monte Carlo of total survival, 100,000 draws × 30 classes, beside a plain fused loop over typed arrays that does the same.
// Run with `npm run bench`.
import { createRequire } from "node:module";
import { performance } from "node:perf_hooks";
import { Worker } from "node:worker_threads";
import helpers from "kernel-helpers";

const require = createRequire(import.meta.url);
const kernelPath = require.resolve("../../kernel-helpers/dist/uncertainty/survivalKernel.js");
const quantilesPath = require.resolve("../../kernel-helpers/dist/uncertainty/quantiles.js");
const { survivalKernel } = require(kernelPath);
const { survivalLoop } = require("../../kernel-helpers/dist/uncertainty/survivalLoop.js");
const { momentsOf, quantilesOf } = require(quantilesPath);
const { turbine, u, uncertainty } = helpers;

const draws = 100_000;
const level = 0.95;
const shares = [(1 - level) / 2, 0.5, (1 + level) / 2];
const lengths = Array.from({ length: 30 }, (_, at) => u.mm(30 + 14 * at));
const unit = {
  type: "kaplan",
  discharge: u.m3ps(17),
  head: u.m(5.3),
  rotationalSpeed: u.rpm(187.5),
  efficiency: 0.9,
  blades: 4,
  runnerDiameter: u.m(1.95),
  hubDiameter: u.m(0.82),
};
const turbineSurvival = turbine.survivalLaw({
  model: "waterLengthStrike",
  unit,
  inflowAngle: u.deg(29.8),
  injuryShare: "vonRaben",
});
const mortality = lengths.map((length) => 1 - turbineSurvival(length));
const { threshold, exponent, ...others } = {
  clearSpacing: uncertainty.normal({ mean: u.mm(18), standardDeviation: u.mm(0.4) }),
  bodyRatio: uncertainty.lognormal({ median: 0.1, spread: 0.06 }),
  threshold: uncertainty.beta({ mean: 0.18, standardDeviation: 0.05 }),
  exponent: uncertainty.lognormal({ median: 0.75, spread: 0.15 }),
  mortalityFactor: uncertainty.triangular({ least: 0.6, mostLikely: 1, most: 1.5 }),
  protectedSurvival: uncertainty.beta({ mean: 0.96, standardDeviation: 0.02 }),
};

/** The same draws for both loops; making them is not part of the race. */
const columns = Object.fromEntries(
  Object.entries({ threshold, exponent, ...others }).map(([name, input]) => {
    const quantile = input.manyQuantiles ?? input.quantile;
    // Shared, so that threads read the same draws.
    const column = new Float64Array(new SharedArrayBuffer(8 * draws));
    for (let draw = 0; draw < draws; draw++) column[draw] = quantile(1 - Math.random());
    return [name, column];
  }),
);

/** What anyone would write: every draw, every class, one array. */
function plainLoop(survival) {
  const { clearSpacing, bodyRatio, mortalityFactor, protectedSurvival, ...curve } = columns;
  for (let draw = 0; draw < draws; draw++) {
    const w0 = curve.threshold[draw];
    for (let at = 0; at < lengths.length; at++) {
      const width = (bodyRatio[draw] * lengths[at]) / clearSpacing[draw];
      const share = width >= 1 ? 1 : width <= w0 ? 0 : ((width - w0) / (1 - w0)) ** curve.exponent[draw];
      const through = Math.max(0, 1 - mortalityFactor[draw] * mortality[at]);
      survival[at * draws + draw] = share * protectedSurvival[draw] + (1 - share) * through;
    }
  }
}

/** A row at a time by one of the module's loops, kept as the plain loop keeps it. */
function byRows(rowsOf, survival) {
  const rowOf = rowsOf(columns);
  lengths.forEach((length, at) => survival.set(rowOf(length, mortality[at]), at * draws));
}

const rows = (survival) => lengths.map((_, at) => survival.slice(at * draws, (at + 1) * draws));
const sortedQuantiles = (survival) =>
  rows(survival).map((row) => {
    const sorted = row.toSorted();
    return shares.map((share) => {
      const rank = share * (draws - 1);
      const below = Math.floor(rank);
      return sorted[below] + (rank - below) * (sorted[Math.min(draws - 1, below + 1)] - sorted[below]);
    });
  });
const ownQuantiles = (survival) =>
  rows(survival).map((row) => {
    momentsOf(row);
    return quantilesOf(row, shares);
  });

/** Bands of some classes from draws that all threads see: what one thread does of the whole. */
const bands = (classes) => {
  const rowOf = survivalKernel(columns);
  return classes.map((at) => {
    const row = rowOf(lengths[at], mortality[at]);
    return { ...momentsOf(row), quantiles: quantilesOf(row, shares) };
  });
};

const threadCode = `
const { parentPort, workerData } = require("node:worker_threads");
const { survivalKernel } = require(workerData.kernelPath);
const { momentsOf, quantilesOf } = require(workerData.quantilesPath);
const { columns, lengths, mortality, shares } = workerData;
const bands = ${bands};
parentPort.on("message", (classes) => parentPort.postMessage(bands(classes)));
`;

/** Threads that stay, each taking every class whose number leaves its own remainder. */
function threadsOf(count) {
  const workers = Array.from(
    { length: count },
    () =>
      new Worker(threadCode, {
        eval: true,
        workerData: { kernelPath, quantilesPath, columns, lengths, mortality, shares },
      }),
  );
  const classesOf = (first) => lengths.flatMap((_, at) => (at % count === first ? [at] : []));
  const asked = (worker, first) =>
    new Promise((resolve) => {
      worker.once("message", resolve);
      // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, no window
      worker.postMessage(classesOf(first));
    });
  return {
    run: () => Promise.all(workers.map(asked)),
    stop: () => Promise.all(workers.map((worker) => worker.terminate())),
  };
}

/** The best of several runs, in milliseconds: what disturbs a run only makes it longer. */
function best(what, runs = 7) {
  const times = Array.from({ length: runs }, () => {
    const start = performance.now();
    what();
    return performance.now() - start;
  });
  return Math.min(...times);
}

const [plain, own, vectors] = [0, 1, 2].map(() => new Float64Array(draws * lengths.length));
const loop = {
  plain: best(() => plainLoop(plain)),
  own: best(() => byRows(survivalLoop, own)),
  vectors: best(() => byRows(survivalKernel, vectors)),
};
const apart = (values) => plain.reduce((most, one, at) => Math.max(most, Math.abs(one - values[at])), 0);
const difference = Math.max(apart(own), apart(vectors));
const quantiles = { plain: best(() => sortedQuantiles(plain), 3), own: best(() => ownQuantiles(own), 3) };
const whole = best(
  () =>
    uncertainty.survivalByLength({
      ...others,
      curve: { threshold, exponent },
      lengths,
      turbineSurvival,
      draws,
      seed: 1,
    }),
  3,
);
const ms = (time) => `${time.toFixed(0)} ms`;
console.log(`total survival, ${draws} draws × ${lengths.length} classes, one core`);
console.log(`plain fused loop ${ms(loop.plain)}`);
for (const [name, time] of [
  ["the module's loop", loop.own],
  ["its WebAssembly kernel", loop.vectors],
])
  console.log(`${name} ${ms(time)}, ${(loop.plain / time).toFixed(1)} × as fast`);
console.log(`largest difference of a survival ${difference.toExponential(1)}`);
console.log(`quantiles of every class: sorting ${ms(quantiles.plain)}, selecting ${ms(quantiles.own)}`);
console.log(`uncertainty.survivalByLength with drawing and quantiles ${ms(whole)}`);
const threads = {};
for (const count of [1, 2]) {
  const { run, stop } = threadsOf(count);
  const times = [];
  for (let round = 0; round < 12; round++) {
    const start = performance.now();
    await run();
    times.push(performance.now() - start);
  }
  threads[count] = Math.min(...times);
  await stop();
}
console.log(
  `bands from given draws: plain loop and sorting ${ms(loop.plain + quantiles.plain)}, one thread ${ms(threads[1])}, ` +
    `two ${ms(threads[2])}, ${(threads[1] / threads[2]).toFixed(2)} × as fast as one`,
);
if (!(difference < 1e-12)) throw new Error("the two loops differ by more than rounding");
