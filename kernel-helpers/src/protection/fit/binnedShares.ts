import { checkNumber, refuse } from "../../statistics/checks";
import { clusteredInterval } from "../../statistics/clustering/clusteredInterval";
import { proportionInterval } from "../../statistics/proportion";
import { byCluster, countedFish, type CountedFish, type TrialFish } from "./trialFish";

/** Fish of nearly one relative width: the share held, with its interval. */
export interface BinnedShare {
  /** Mean relative width of the fish. */
  readonly relativeWidth: number;
  readonly protection: number;
  readonly interval: readonly [lower: number, upper: number];
  readonly held: number;
  readonly fish: number;
  readonly clusters: number | undefined;
  readonly method: string;
}

/**
 * Shares held by class of relative width, to be drawn beside a fitted curve.
 *
 * Returns one entry for each class that has fish: Wilson's interval, on Rao–Scott effective counts where clusters are
 * named. A class holds its lower edge and not its upper one, the last class both; the last edge may be Infinity. Throws a
 * RangeError for edges that don't rise, fish outside them and rows that are no fish.
 *
 * @example
 * protection.binnedShares({ edges: [0, 1], fish: [{ relativeWidth: 0.4, held: 5, fish: 20 }] })[0].protection // => 0.25
 */
export function binnedShares({
  fish,
  edges,
}: {
  readonly fish: readonly TrialFish[];
  readonly edges: readonly number[];
}): readonly BinnedShare[] {
  const where = "protection.binnedShares";
  const rows = countedFish(where, fish).filter((row) => row.fish > 0);
  if (edges.length < 2) refuse(where, `edges has ${edges.length} values; a class needs 2`);
  edges.forEach((edge, at) => {
    if (at === edges.length - 1 && edge === Infinity) return;
    checkNumber(where, `edges[${at}]`, edge, at === 0 ? {} : { above: edges[at - 1] });
  });
  const [first, last] = [edges[0], edges[edges.length - 1]];
  const outside = total(
    rows.filter(({ relativeWidth }) => relativeWidth < first || relativeWidth > last).map((row) => row.fish),
  );
  if (outside > 0)
    refuse(
      where,
      `${outside} fish lie outside the edges, ${first} to ${last}; the last edge may be Infinity`,
    );
  return edges.slice(1).flatMap((to, at) => {
    const closed = at === edges.length - 2;
    const inside = rows.filter(
      ({ relativeWidth: width }) => width >= edges[at] && (width < to || (closed && width === to)),
    );
    return inside.length === 0 ? [] : [shareOf(inside)];
  });
}

const total = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);

function shareOf(rows: readonly CountedFish[]): BinnedShare {
  const held = total(rows.map((row) => row.held));
  const fish = total(rows.map((row) => row.fish));
  const clusters = byCluster(rows)?.map((own) => ({
    successes: total(own.map((row) => row.held)),
    trials: total(own.map((row) => row.fish)),
  }));
  const { lower, upper, method } =
    clusters === undefined || clusters.length < 2
      ? proportionInterval({ successes: held, trials: fish, method: "wilson" })
      : clusteredInterval({ clusters });
  return {
    relativeWidth: total(rows.map((row) => row.relativeWidth * row.fish)) / fish,
    protection: held / fish,
    interval: [lower, upper],
    held,
    fish,
    clusters: clusters?.length,
    method,
  };
}
