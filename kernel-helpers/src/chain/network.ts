import { refuse } from "../statistics/checks";

/** What a network is made of: each plant, and the next one downstream. */
export interface Link {
  readonly plant: string;
  /** The sea where it is left out or empty. */
  readonly next?: string | undefined;
}

const toSea = (next: string | undefined): next is undefined | "" => next === undefined || next === "";

/** What is wrong with one link of a river, and where it stands in the list. */
export interface LinkFault {
  readonly index: number;
  readonly column: "plant" | "next";
  readonly fault: string;
}

/** Everything that keeps the links from being a river: names twice, plants that are missing, loops. */
export function linkFaults(links: readonly Link[]): readonly LinkFault[] {
  const places = new Map<string, number>();
  const faults: LinkFault[] = [];
  links.forEach(({ plant }, index) => {
    if (plant.trim() === "") faults.push({ index, column: "plant", fault: "a plant has no name" });
    else if (places.has(plant))
      faults.push({
        index,
        column: "plant",
        fault: `there are two plants "${plant}"; a name stands for one plant`,
      });
    else places.set(plant, index);
  });
  links.forEach(({ plant, next }, index) => {
    if (toSea(next) || places.has(next)) return;
    const fault = `the next plant below "${plant}" is "${next}", which is not in the list; add it, or leave next empty for the sea`;
    faults.push({ index, column: "next", fault });
  });
  return faults.length > 0 ? faults : loopFaults(links, places);
}

function loopFaults(links: readonly Link[], places: ReadonlyMap<string, number>): readonly LinkFault[] {
  const settled = new Set<number>();
  const faults: LinkFault[] = [];
  links.forEach((_, start) => {
    const path: number[] = [];
    let at: number | undefined = start;
    while (at !== undefined && !settled.has(at) && !path.includes(at)) {
      path.push(at);
      const next: string | undefined = links[at].next;
      at = toSea(next) ? undefined : places.get(next);
    }
    if (at !== undefined && path.includes(at)) {
      const loop = [...path.slice(path.indexOf(at)), at].map((one) => links[one].plant);
      const fault = `the river runs in a loop: ${loop.join(" → ")}; the last plant of a river has no next`;
      faults.push({ index: at, column: "next", fault });
    }
    path.forEach((one) => settled.add(one));
  });
  return faults;
}

/** A river whose links are in order. */
export interface Network {
  /** Places in the list, each plant after all plants above it. */
  readonly order: readonly number[];
  /** For each place in the list, that of the next plant; undefined for the sea. */
  readonly next: readonly (number | undefined)[];
}

/** Puts the plants in an order in which water could run. Throws the sentences of `linkFaults`. */
export function networkOf(where: string, links: readonly Link[]): Network {
  if (links.length === 0) refuse(where, "plants is empty; give at least one");
  const faults = linkFaults(links);
  if (faults.length > 0) refuse(where, faults.map(({ fault }) => fault).join("; "));
  const places = new Map(links.map(({ plant }, index) => [plant, index]));
  const next = links.map((link) => (toSea(link.next) ? undefined : places.get(link.next)));
  const waitingFor = links.map(() => 0);
  for (const below of next) if (below !== undefined) waitingFor[below] += 1;
  const order = links.flatMap((_, index) => (waitingFor[index] === 0 ? [index] : []));
  // The list grows while it is read: a plant enters once all plants above it stand there.
  for (const index of order) {
    const below = next[index];
    if (below === undefined) continue;
    waitingFor[below] -= 1;
    if (waitingFor[below] === 0) order.push(below);
  }
  return { order, next };
}
