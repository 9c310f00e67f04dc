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

/** Exchanges tried for each unit: enough that more change nothing in plans of the usual size. */
const exchangesPerUnit = 300;

/**
 * Deals units into blocks at random, then exchanges pairs at random as long as no feature becomes less even.
 *
 * Levels weigh more than pairs of levels: first every level is spread, then the pairs. Exchanges that change nothing are
 * made too, so that the result stays a random one among equals.
 */
export function dealt<U extends Spread>(
  units: readonly U[],
  sizes: readonly number[],
  uniform: () => number,
): U[][] {
  const order = shuffled(units, uniform);
  const blockOf = sizes.flatMap((size, block) => Array.from({ length: size }, () => block));
  const features = order.map((unit) => weighted(unit.features));
  const counts = sizes.map(() => new Map<string, number>());
  const move = (unit: number, block: number, by: 1 | -1): number => {
    let change = 0;
    for (const [name, weight] of features[unit]) {
      const before = counts[block].get(name) ?? 0;
      counts[block].set(name, before + by);
      change += weight * ((before + by) ** 2 - before ** 2);
    }
    return change;
  };
  order.forEach((_, unit) => move(unit, blockOf[unit], 1));
  if (sizes.length > 1) {
    for (let tried = 0; tried < exchangesPerUnit * order.length; tried++) {
      const [one, other] = [0, 0].map(() => Math.floor(uniform() * order.length));
      const [from, to] = [blockOf[one], blockOf[other]];
      if (from === to) continue;
      const change = move(one, from, -1) + move(other, to, -1) + move(one, to, 1) + move(other, from, 1);
      if (change <= 1e-9) [blockOf[one], blockOf[other]] = [to, from];
      else {
        move(one, to, -1);
        move(other, from, -1);
        move(one, from, 1);
        move(other, to, 1);
      }
    }
  }
  return sizes.map((_, block) => order.filter((_unit, at) => blockOf[at] === block));
}

const pairWeight = 0.02;

/** Each feature, and each pair of features, with its weight. */
function weighted(features: readonly string[]): readonly (readonly [string, number])[] {
  const pairs = features.flatMap((one, at) =>
    features.slice(at + 1).map((other) => [`${one} × ${other}`, pairWeight] as const),
  );
  return [...features.map((name) => [name, 1] as const), ...pairs];
}
