/** The command `npm run screen -- plants.csv`: survival at every plant of a catchment, on all cores. */
import { standingCaution } from "../notebook/cautions";
import { runCommand } from "./command";
import { progress, type Progress } from "./progress";
import { readScreeningOrder } from "./screening/options";
import { screen } from "./screening/screening";

const usage = `Usage: npm run screen -- PLANTS.csv [options]

  --out FILE            results, .csv or .parquet (beside the plants, NAME-screened.csv)
  --species FILE        species with body ratios and lengths (data-demo/species.csv)
  --ranges FILE         columns number, lowest, highest: what is drawn, and from where to where
  --draws N             draws of the uncertain numbers (1000)
  --classes N           size classes of each species (40)
  --seed N              another seed gives other draws (1)
  --plants-in-part N    plants calculated and written at a time (100)
  --workers N           processes of the pool (all cores)
  --part I/N            makes only the I-th of N shares of the parts, for an array job
  --merge               joins the parts that such jobs have made

A run that was stopped goes on where it was: give the same command again.`;

async function carryOut(words: readonly string[], signal: AbortSignal): Promise<number> {
  const order = await readScreeningOrder(words);
  let bar: Progress | undefined;
  const start = performance.now();
  try {
    const { plants, missing, joined } = await screen(
      order,
      {
        begin(own, done) {
          if (done > 0) console.log(`${done} of ${own} plants were done before.`);
          bar = progress(own, { unit: "plants", first: "screening" });
          bar.step("screening", done);
        },
        step: (count) => bar?.step("screening", count),
      },
      signal,
    );
    bar?.stop();
    const seconds = ((performance.now() - start) / 1000).toFixed(1);
    if (joined) console.log(`${plants} plants screened in ${seconds} s: ${order.out}\n${standingCaution}`);
    else if (missing === 0) console.log(`All parts are made; join them with --merge.`);
    else if (order.mergeOnly) {
      console.error(
        `${missing} parts are missing; nothing was joined. Make them first, with the same settings.`,
      );
      return 1;
    } else console.log(`This share is made; ${missing} parts of other shares are still missing.`);
    return 0;
  } finally {
    bar?.stop();
  }
}

if (require.main === module) {
  void runCommand(
    usage,
    carryOut,
    "the parts that are done stay, and the same command goes on from there",
  ).then((code) => {
    process.exitCode = code;
  });
}
