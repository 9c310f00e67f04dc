import { library } from "../statistics/library";

/** The table runs over normal quantiles so far on either side, in even steps. */
const reach = 6;
const perUnit = 32;

/**
 * The quantile of a beta distribution by a table, made when first asked.
 *
 * The logit of the quantile is nearly straight over the normal quantile, so that a cubic between the nodes is good to some
 * 1e-8. The exact quantile takes a hundred times longer.
 */
export function betaTable(alpha: number, beta: number): (probability: number) => number {
  const exact = (probability: number): number => library.betaQuantile(probability, alpha, beta);
  let made: { readonly logits: Float64Array; readonly slopes: Float64Array } | undefined;
  return (probability) => {
    const place = (library.normalQuantile(probability, 0, 1) + reach) * perUnit;
    const node = Math.floor(place);
    if (!(node >= 1 && node < 2 * reach * perUnit - 1)) return exact(probability);
    made ??= tableOf(alpha, beta);
    const { logits, slopes } = made;
    const part = place - node;
    const rest = 1 - part;
    // Hermite's cubic: values and slopes at both nodes.
    const logit =
      rest * rest * ((1 + 2 * part) * logits[node] + part * slopes[node]) +
      part * part * ((3 - 2 * part) * logits[node + 1] - rest * slopes[node + 1]);
    return Number.isFinite(logit) ? 1 / (1 + Math.exp(-logit)) : exact(probability);
  };
}

function tableOf(
  alpha: number,
  beta: number,
): { readonly logits: Float64Array; readonly slopes: Float64Array } {
  const nodes = 2 * reach * perUnit + 1;
  const logits = Float64Array.from({ length: nodes }, (_, node) => {
    const normal = node / perUnit - reach;
    // From the nearer end, so that a share near 1 keeps its digits.
    const share = library.betaQuantile(
      library.normalCdf(-Math.abs(normal), 0, 1),
      normal < 0 ? alpha : beta,
      normal < 0 ? beta : alpha,
    );
    const logit = Math.log(share) - Math.log1p(-share);
    return normal < 0 ? logit : -logit;
  });
  const at = (node: number): number => logits[Math.min(nodes - 1, Math.max(0, node))];
  // Slopes a step, from two nodes on either side.
  const slopes = Float64Array.from(
    { length: nodes },
    (_, node) => (8 * (at(node + 1) - at(node - 1)) - (at(node + 2) - at(node - 2))) / 12,
  );
  return { logits, slopes };
}
