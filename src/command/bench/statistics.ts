/** The value in the middle; of an even number of values, the upper one. NaN of none. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}

export interface PowerLaw {
  readonly factor: number;
  readonly exponent: number;
}

/** Least squares of ln y on ln x: y = factor * x ^ exponent. At least two different x, all values above 0. */
export function fitPower(points: readonly (readonly [x: number, y: number])[]): PowerLaw {
  const logs = points.map(([x, y]) => [Math.log(x), Math.log(y)] as const);
  const mean = (k: 0 | 1): number => logs.reduce((sum, p) => sum + p[k], 0) / logs.length;
  const [mx, my] = [mean(0), mean(1)];
  const spread = logs.reduce((sum, [x]) => sum + (x - mx) ** 2, 0);
  const exponent = logs.reduce((sum, [x, y]) => sum + (x - mx) * (y - my), 0) / spread;
  return { factor: Math.exp(my - exponent * mx), exponent };
}
