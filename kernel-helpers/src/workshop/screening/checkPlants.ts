import { createHash, type Hash } from "node:crypto";
import { createReadStream } from "node:fs";
import { checkBatch, textBatches } from "./plantsFile";

/** How many faults a message spells out. */
const shownFaults = 20;

/** What is known of a plants file once every row was read. */
export interface CheckedPlants {
  readonly plants: number;
  readonly parts: number;
  /** SHA-256 of its bytes: a file that was changed meanwhile is noticed. */
  readonly digest: string;
}

/**
 * Reads every row of a plants file before anything is calculated.
 *
 * Returns how many there are. Throws an Error with the first faults, each with its line, and how many there are in all.
 * Holds a part of the file at a time, and eight bytes of each name to find those that stand twice.
 */
export async function checkPlants(
  path: string,
  place: string,
  plantsInPart: number,
  signal: AbortSignal,
): Promise<CheckedPlants> {
  const names = new NameDigests();
  const faults: string[] = [];
  let faulty = 0;
  let plants = 0;
  let parts = 0;
  for await (const batch of textBatches(path, plantsInPart)) {
    signal.throwIfAborted();
    const checked = await checkBatch(place, batch);
    for (const { plant } of checked.plants) names.add(plant);
    plants += checked.plants.length;
    parts = batch.index + 1;
    faulty += checked.faults.length;
    faults.push(...checked.faults.slice(0, shownFaults - faults.length));
    // A file whose head is wrong has the same fault in every part.
    if (checked.plants.length === 0 && faulty >= shownFaults) break;
  }
  if (faulty === 0) {
    const doubled = names.doubled();
    if (doubled.size > 0) faults.push(...(await doubledNames(path, place, plantsInPart, doubled)));
    faulty = faults.length;
  }
  if (faulty > 0) {
    const more = faulty > faults.length ? [`… and ${faulty - faults.length} more.`] : [];
    throw new Error(
      [
        `${faulty} ${faulty === 1 ? "fault" : "faults"} in the plants; nothing was calculated.`,
        ...faults.slice(0, shownFaults),
        ...more,
      ].join("\n"),
    );
  }
  return { plants, parts, digest: await digestOf(path) };
}

async function digestOf(path: string): Promise<string> {
  const hash = createHash("sha256");
  for await (const chunk of createReadStream(path)) updateWith(hash, chunk);
  return hash.digest("hex");
}

function updateWith(hash: Hash, chunk: unknown): void {
  if (!(chunk instanceof Uint8Array)) throw new TypeError("a file read without encoding gives bytes.");
  hash.update(chunk);
}

/** Eight bytes for each name. */
class NameDigests {
  #digests = new BigUint64Array(1024);
  #count = 0;

  add(name: string): void {
    if (this.#count === this.#digests.length) {
      const wider = new BigUint64Array(2 * this.#count);
      wider.set(this.#digests);
      this.#digests = wider;
    }
    this.#digests[this.#count] = digest(name);
    this.#count += 1;
  }

  /** The digests that stand more than once. */
  doubled(): ReadonlySet<bigint> {
    const sorted = this.#digests.subarray(0, this.#count).toSorted();
    return new Set(sorted.filter((one, at) => at > 0 && one === sorted[at - 1]));
  }
}

const digest = (name: string): bigint => createHash("md5").update(name).digest().readBigUInt64LE();

/** Reads the file once more, for the names whose digests stand twice. */
async function doubledNames(
  path: string,
  place: string,
  plantsInPart: number,
  doubled: ReadonlySet<bigint>,
): Promise<string[]> {
  const seen = new Set<string>();
  const sentences: string[] = [];
  for await (const batch of textBatches(path, plantsInPart)) {
    const { plants } = await checkBatch(place, batch);
    for (const { plant } of plants) {
      if (!doubled.has(digest(plant))) continue;
      if (seen.has(plant))
        sentences.push(`${place}: there are two plants "${plant}"; a name stands for one plant.`);
      seen.add(plant);
    }
  }
  return sentences;
}
