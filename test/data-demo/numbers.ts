export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Standard deviation about the mean, divided by the count. */
export function deviation(values: readonly number[]): number {
  const middle = mean(values);
  return Math.sqrt(mean(values.map((value) => (value - middle) ** 2)));
}

/** Least squares y = intercept + slope x, with the standard error of the slope and the residuals' deviation. */
export function line(x: readonly number[], y: readonly number[]) {
  const meanX = mean(x);
  const meanY = mean(y);
  const sxx = x.reduce((sum, value) => sum + (value - meanX) ** 2, 0);
  const slope = x.reduce((sum, value, index) => sum + (value - meanX) * (y[index] - meanY), 0) / sxx;
  const intercept = meanY - slope * meanX;
  const residuals = y.map((value, index) => value - intercept - slope * x[index]);
  const squares = residuals.reduce((sum, value) => sum + value ** 2, 0);
  const scatter = Math.sqrt(squares / (x.length - 2));
  return { slope, intercept, scatter, residuals, slopeError: scatter / Math.sqrt(sxx) };
}

export function correlation(x: readonly number[], y: readonly number[]): number {
  const middleX = mean(x);
  const middleY = mean(y);
  const product = mean(x.map((value, index) => (value - middleX) * (y[index] - middleY)));
  return product / (deviation(x) * deviation(y));
}

/** The entries by key, in the order in which the keys first come. */
export function groupsBy<T>(entries: readonly T[], key: (entry: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const entry of entries) {
    const group = groups.get(key(entry));
    if (group === undefined) groups.set(key(entry), [entry]);
    else group.push(entry);
  }
  return groups;
}
