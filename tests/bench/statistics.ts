/** The value below which a share of all lies: interpolated between neighbours (Hyndman & Fan 1996, definition 7). */
export function quantile(values: readonly number[], share: number): number {
  if (values.length === 0) throw new Error('nothing was measured');
  const sorted = [...values].sort((a, b) => a - b);
  const at = (sorted.length - 1) * share;
  const below = Math.floor(at);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below] + (at - below) * (sorted[above] - sorted[below]);
}

export const median = (values: readonly number[]): number => quantile(values, 0.5);

/**
 * The exponent b of time = a · size^b, fitted by least squares to the logarithms of both.
 * @returns null where there are under two sizes, or a time is not above 0
 */
export function growthExponent(points: readonly (readonly [size: number, time: number])[]): number | null {
  if (new Set(points.map(([size]) => size)).size < 2) return null;
  if (points.some(([size, time]) => !(size > 0 && time > 0))) return null;
  const xs = points.map(([size]) => Math.log(size));
  const ys = points.map(([, time]) => Math.log(time));
  const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
  const [x, y] = [mean(xs), mean(ys)];
  const across = xs.reduce((total, each, index) => total + (each - x) * (ys[index] - y), 0);
  return across / xs.reduce((total, each) => total + (each - x) ** 2, 0);
}
