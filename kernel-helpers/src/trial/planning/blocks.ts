/** What is to be spread over blocks: the value of each feature, by its name. */
export interface Spread {
  readonly features: readonly string[];
}

/** A random order of a list (Fisher and Yates). */
export function shuffled<T>(list: readonly T[], uniform: () => number): T[] {
  const order = [...list];
  for (let at = order.length - 1; at > 0; at--) {
    const other = Math.floor(uniform() * (at + 1));
    [order[at], order[other]] = [order[other], order[at]];
  }
  return order;
}

/** As even block sizes as a total allows. */
export function evenSizes(total: number, blocks: number): number[] {
  return Array.from(
    { length: blocks },
    (_, at) => Math.floor(((at + 1) * total) / blocks) - Math.floor((at * total) / blocks),
  );
}

/** Exchanges tried for each unit, once for levels alone and once for pairs too: more change nothing in usual plans. */
const exchangesPerUnit = 1000;

/**
 * Deals units into blocks at random, then exchanges pairs at random as long as nothing becomes less even.
 *
 * First every level is spread, then every pair of levels without harm to the levels. Exchanges that change nothing are made
 * too: they lead on where no single exchange does better, and leave the result a random one among equals.
 */
export function dealt<U extends Spread>(
  units: readonly U[],
  sizes: readonly number[],
  uniform: () => number,
): U[][] {
  const order = shuffled(units, uniform);
  const blockOf = sizes.flatMap((size, block) => Array.from({ length: size }, () => block));
  if (sizes.length > 1) {
    const numbers = numbered();
    const levels = order.map(({ features }) => features.map(numbers));
    const pairs = order.map(({ features }) => pairsOf(features).map(numbers));
    exchange(blockOf, sizes.length, [{ features: levels, weight: 1 }], uniform);
    const both = [
      { features: levels, weight: 1 },
      { features: pairs, weight: pairWeight },
    ];
    exchange(blockOf, sizes.length, both, uniform);
  }
  return sizes.map((_, block) => order.filter((_unit, at) => blockOf[at] === block));
}

/** A pair of levels weighs so little that no number of pairs outweighs a level. */
const pairWeight = 0.001;

const pairsOf = (features: readonly string[]): string[] =>
  features.flatMap((one, at) => features.slice(at + 1).map((other) => `${one} × ${other}`));

/** Gives each text a number of its own, from 0. */
function numbered(): (text: string) => number {
  const known = new Map<string, number>();
  return (text) => {
    const number = known.get(text) ?? known.size;
    known.set(text, number);
    return number;
  };
}

/** Features of each unit, as numbers, and what a count too many of them weighs. */
interface Weighed {
  readonly features: readonly (readonly number[])[];
  readonly weight: number;
}

/** Exchanges units between blocks at random while the sum of squared counts does not grow: it is least where counts are even. */
function exchange(
  blockOf: number[],
  blocks: number,
  weighed: readonly Weighed[],
  uniform: () => number,
): void {
  const features = 1 + Math.max(...weighed.flatMap((one) => one.features.flat()));
  const counts = new Int32Array(blocks * features);
  const move = (unit: number, block: number, by: 1 | -1): number => {
    let change = 0;
    for (const { features: ofUnits, weight } of weighed)
      for (const feature of ofUnits[unit]) {
        const at = block * features + feature;
        change += weight * (2 * by * counts[at] + 1);
        counts[at] += by;
      }
    return change;
  };
  const units = blockOf.length;
  for (let unit = 0; unit < units; unit++) move(unit, blockOf[unit], 1);
  for (let tried = 0; tried < exchangesPerUnit * units; tried++) {
    const [one, other] = [Math.floor(uniform() * units), Math.floor(uniform() * units)];
    const [from, to] = [blockOf[one], blockOf[other]];
    if (from === to) continue;
    const change = move(one, from, -1) + move(other, to, -1) + move(one, to, 1) + move(other, from, 1);
    if (change <= 1e-9) {
      blockOf[one] = to;
      blockOf[other] = from;
    } else {
      move(one, to, -1);
      move(other, from, -1);
      move(one, from, 1);
      move(other, to, 1);
    }
  }
}
