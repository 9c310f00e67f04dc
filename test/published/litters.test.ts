import { statistics } from "kernel-helpers";
import { describe, expect, test } from "vitest";

/** Litters from pairs of foetuses and dead ones. */
const litters = (
  ...pairs: readonly (readonly [trials: number, successes: number])[]
): readonly statistics.Cluster[] => pairs.map(([trials, successes]) => ({ trials, successes }));

/** Logarithm of from · (from + 1) · … with so many factors. */
const rising = (from: number, count: number): number =>
  Array.from({ length: count }, (_, step) => Math.log(from + step)).reduce((sum, one) => sum + one, 0);

const logit = (share: number): number => Math.log(share / (1 - share));

describe("58 litters of rats on a diet low in iron (data Moore & Tsiatis 1991, Biometrics 47:383, from memory; fits in an R companion to Agresti, Categorical Data Analysis, by the packages VGAM and aod; printed)", () => {
  const groups = [
    {
      name: "untreated",
      clusters: litters(
        ...([
          [10, 1],
          [11, 4],
          [12, 9],
          [4, 4],
          [10, 10],
          [11, 9],
          [9, 9],
          [11, 11],
          [10, 10],
          [10, 7],
          [12, 12],
          [10, 9],
          [8, 8],
          [11, 9],
          [6, 4],
          [9, 7],
          [14, 14],
          [12, 7],
          [11, 9],
          [13, 8],
          [14, 5],
          [10, 10],
          [12, 10],
          [13, 8],
          [10, 10],
          [14, 3],
          [13, 13],
          [4, 3],
          [8, 8],
          [13, 5],
          [12, 12],
        ] as const),
      ),
    },
    {
      name: "group 2",
      clusters: litters(
        ...([
          [10, 1],
          [3, 1],
          [13, 1],
          [12, 0],
          [14, 4],
          [9, 2],
          [13, 2],
          [16, 1],
          [11, 0],
          [4, 0],
          [1, 0],
          [12, 0],
        ] as const),
      ),
    },
    { name: "group 3", clusters: litters([8, 0], [11, 1], [14, 0], [14, 1], [11, 0]) },
    {
      name: "group 4",
      clusters: litters(
        ...([
          [3, 0],
          [13, 0],
          [9, 2],
          [17, 2],
          [15, 0],
          [2, 0],
          [14, 1],
          [8, 0],
          [6, 0],
          [17, 0],
        ] as const),
      ),
    },
  ];
  const fit = statistics.betaBinomialComparison({ groups });

  test("log-likelihood −93.45675", () => {
    expect(fit.logLikelihood).toBeCloseTo(-93.45675, 4);
  });

  test("logit of the untreated mean 1.346 (error 0.2481), the others −3.114, −3.868 and −3.922 below it", () => {
    const [untreated, ...others] = fit.groups;
    expect(logit(untreated.estimate)).toBeCloseTo(1.3458, 3);
    // The error of the logit is that of the share over share times rest.
    const error = (untreated.standardError ?? NaN) / (untreated.estimate * (1 - untreated.estimate));
    expect(error).toBeCloseTo(0.2481, 4);
    const below = others.map(({ estimate }) => logit(estimate) - logit(untreated.estimate));
    [-3.1144, -3.8681, -3.9225].forEach((printed, at) => expect(below[at]).toBeCloseTo(printed, 3));
  });

  test("intra-class correlation 0.2412 with error 0.06036", () => {
    expect(fit.intraclassCorrelation.estimate).toBeCloseTo(0.2412, 4);
    // The printed error comes from a numerical second derivative.
    expect(Math.abs((fit.intraclassCorrelation.standardError ?? NaN) - 0.06036)).toBeLessThan(2e-5);
  });
});

describe("boys in 6115 families of twelve children in Saxony (data Geissler 1889; fit printed in a widely used encyclopedia's article on the beta-binomial distribution)", () => {
  const families = [3, 24, 104, 286, 670, 1033, 1343, 1112, 829, 478, 181, 45, 7];
  const clusters = families.flatMap((count, successes) =>
    Array.from({ length: count }, () => ({ trials: 12, successes })),
  );
  const fit = statistics.betaBinomial({ clusters });
  const both = 1 / (fit.intraclassCorrelation?.estimate ?? NaN) - 1;
  const [alpha, beta] = [fit.mean.estimate * both, (1 - fit.mean.estimate) * both];

  /** The part of the log-likelihood that depends on the two shapes. */
  const logLikelihood = (a: number, b: number): number => {
    return families.reduce(
      (sum, count, boys) => sum + count * (rising(a, boys) + rising(b, 12 - boys) - rising(a + b, 12)),
      0,
    );
  };

  test("Akaike's criterion 24 989.74", () => {
    expect(4 - 2 * fit.logLikelihood).toBeCloseTo(24_989.74, 2);
  });

  test("shapes 34.096 and 31.572 up to where the printed search stopped: ours is no less likely", () => {
    expect(Math.abs(alpha - 34.09558)).toBeLessThan(0.01);
    expect(Math.abs(beta - 31.5715)).toBeLessThan(0.01);
    expect(logLikelihood(alpha, beta)).toBeGreaterThanOrEqual(logLikelihood(34.09558, 31.5715));
  });
});
