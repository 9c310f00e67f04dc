import { LuDecomposition, Matrix } from "ml-matrix";
import { checkNumber, refuse } from "./checks";
import { chiSquareTail } from "./distributions";

const where = "statistics.logRank";

/** Times of one group, as for `kaplanMeier`. */
export interface EventGroup {
  readonly name: string;
  readonly times: readonly number[];
  /** Whether the event was seen (true) or the subject was lost from sight without one (false). */
  readonly observed: readonly boolean[];
}

/** What a log-rank test says. */
export interface LogRank {
  readonly method: string;
  readonly statistic: number;
  readonly degreesOfFreedom: number;
  readonly pValue: number;
  readonly groups: readonly {
    readonly name: string;
    readonly subjects: number;
    readonly events: number;
    /** Events that the group would have if all groups shared one course. */
    readonly expected: number;
  }[];
}

/**
 * Log-rank test: do groups differ in when an event happens, though some were not watched to the end?
 *
 * Returns the chi-square statistic with its degrees of freedom and p-value, and for each group the events seen beside those
 * expected if all groups shared one course; ties have the hypergeometric variance. Valid for independent subjects: fish of
 * one run are not, and for them p comes out too small; compare the shares at one time with an interval that respects runs
 * instead. Throws a RangeError for fewer than two groups, two of the same name, lists that don't go together, times that
 * are negative or not finite, and where no event was seen.
 *
 * @example
 * statistics.logRank([
 *   { name: "light", times: [3, 5, 8, 10], observed: [true, true, true, false] },
 *   { name: "none", times: [6, 9, 10, 10], observed: [true, true, false, false] },
 * ]).statistic // => 1.03436
 */
export function logRank(groups: readonly EventGroup[]): LogRank {
  checkGroups(groups);
  const subjects = groups
    .flatMap(({ times, observed }, group) => times.map((time, at) => ({ time, seen: observed[at], group })))
    .toSorted((one, other) => one.time - other.time);
  if (subjects.every(({ seen }) => !seen)) refuse(where, "no event was seen; there is nothing to compare");

  const atRisk = groups.map(({ times }) => times.length);
  const expected = groups.map(() => 0);
  const variance = Matrix.zeros(groups.length, groups.length);
  for (let first = 0; first < subjects.length;) {
    const { time } = subjects[first];
    const leaving = groups.map(() => 0);
    let [events, next] = [0, first];
    for (; next < subjects.length && subjects[next].time === time; next++) {
      leaving[subjects[next].group]++;
      if (subjects[next].seen) events++;
    }
    const all = subjects.length - first;
    const spread = all > 1 ? (events * (all - events)) / (all - 1) : 0;
    groups.forEach((_, row) => {
      const share = atRisk[row] / all;
      expected[row] += events * share;
      groups.forEach((__, column) => {
        const other = atRisk[column] / all;
        const term = spread * share * ((row === column ? 1 : 0) - other);
        variance.set(row, column, variance.get(row, column) + term);
      });
    });
    leaving.forEach((count, group) => (atRisk[group] -= count));
    first = next;
  }
  const seen = groups.map(({ observed }) => observed.filter(Boolean).length);
  const statistic = statisticOf(
    seen.map((events, at) => events - expected[at]),
    variance,
  );
  const degreesOfFreedom = groups.length - 1;
  return {
    method: "log-rank test, hypergeometric variance, subjects taken as independent",
    statistic,
    degreesOfFreedom,
    pValue: chiSquareTail(statistic, { degreesOfFreedom }),
    groups: groups.map(({ name, times }, at) => ({
      name,
      subjects: times.length,
      events: seen[at],
      expected: expected[at],
    })),
  };
}

/** The differences of all groups but the last, which follows from the others, over their covariance. */
function statisticOf(differences: readonly number[], variance: Matrix): number {
  const last = differences.length - 1;
  const part = variance.subMatrix(0, last - 1, 0, last - 1);
  const decomposition = new LuDecomposition(part);
  if (decomposition.isSingular()) {
    refuse(
      where,
      "no event happened while subjects of different groups were watched; they can't be compared",
    );
  }
  const free = Matrix.columnVector(differences.slice(0, last));
  return free.transpose().mmul(decomposition.solve(free)).get(0, 0);
}

function checkGroups(groups: readonly EventGroup[]): void {
  if (groups.length < 2) refuse(where, `there are ${groups.length} groups; a comparison needs at least 2`);
  const names = new Set<string>();
  for (const { name, times, observed } of groups) {
    if (names.has(name)) refuse(where, `two groups are called "${name}"; give each its own name`);
    names.add(name);
    if (times.length === 0) refuse(where, `group "${name}" has no times; give at least one`);
    if (times.length !== observed.length) {
      refuse(
        where,
        `group "${name}" has ${times.length} times and ${observed.length} in observed; each subject needs one of both`,
      );
    }
    times.forEach((time, at) => checkNumber(where, `times[${at}] of "${name}"`, time, { atLeast: 0 }));
    const odd = observed.findIndex((one) => typeof one !== "boolean");
    if (odd >= 0) {
      refuse(
        where,
        `observed[${odd}] of "${name}" is ${JSON.stringify(observed[odd])}; it must be true (event seen) or false (censored)`,
      );
    }
  }
}
