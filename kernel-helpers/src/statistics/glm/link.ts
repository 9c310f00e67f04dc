import { refuse } from "../checks";
import { normalCdf, normalQuantile } from "../distributions";

/** A name of a link: how a share is stretched to the whole line on which effects add up. */
export type LinkName = "logit" | "probit" | "cloglog";

/** What a link says of one value on its line. */
export interface LinkedShare {
  /** The share of successes, 0 to 1. */
  readonly share: number;
  /** The share of failures, computed on its own: 1 − share has no digits left close to 1. */
  readonly rest: number;
  /** How fast the share rises along the line. */
  readonly slope: number;
}

export interface Link {
  readonly name: LinkName;
  /** The value on the line that belongs to a share and to the rest of it. */
  readonly ofShare: (share: number, rest: number) => number;
  readonly at: (value: number) => LinkedShare;
}

const logit: Link = {
  name: "logit",
  ofShare: (share, rest) => Math.log(share / rest),
  at: (value) => {
    const share = 1 / (1 + Math.exp(-value));
    const rest = 1 / (1 + Math.exp(value));
    return { share, rest, slope: share * rest };
  },
};

const probit: Link = {
  name: "probit",
  // From the nearer end, where the digits are.
  ofShare: (share, rest) => (share <= rest ? normalQuantile(share) : -normalQuantile(rest)),
  at: (value) => ({
    share: normalCdf(value),
    rest: normalCdf(-value),
    slope: Math.exp(-(value ** 2) / 2) / Math.sqrt(2 * Math.PI),
  }),
};

const cloglog: Link = {
  name: "cloglog",
  ofShare: (_, rest) => Math.log(-Math.log(rest)),
  at: (value) => {
    const hazard = Math.exp(value);
    return { share: -Math.expm1(-hazard), rest: Math.exp(-hazard), slope: Math.exp(value - hazard) };
  },
};

const links: Readonly<Record<LinkName, Link>> = { logit, probit, cloglog };

/** Returns the link of that name, or throws a RangeError that lists the names. */
export function linkOf(by: string, name: LinkName): Link {
  // A cell may hand over any text.
  if (!Object.hasOwn(links, name)) refuse(by, `link is "${name}"; it must be "logit", "probit" or "cloglog"`);
  return links[name];
}
