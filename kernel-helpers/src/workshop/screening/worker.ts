/** A worker of the pool: screens the plants of one part and writes it. */
import { workerData } from "node:worker_threads";
import { writeText } from "./disk";
import type { CatchmentPlant } from "./plantRecord";
import { resultLine } from "./resultText";
import { classLengths, type Settings } from "./settings";
import { screenPlant } from "./sweep";

/** What one part is made from. */
export interface PartTask {
  readonly path: string;
  readonly plants: readonly CatchmentPlant[];
}

// The pool hands every worker the same settings when it starts.
const settings = workerData as Settings;
const lengths = classLengths(settings);

/** Writes a part. Returns how many plants it holds. */
export default async function writePart({ path, plants }: PartTask): Promise<number> {
  const lines = plants.flatMap((plant) => screenPlant(plant, settings, lengths).map(resultLine));
  await writeText(path, `${lines.join("\n")}\n`);
  return plants.length;
}
