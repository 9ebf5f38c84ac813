import { expect } from 'vitest';

type Nested = number | readonly Nested[];

const flattened = (value: Nested): number[] =>
  typeof value === 'number' ? [value] : value.flatMap(flattened);

/** Every number within so much of its counterpart; the message names the worst. */
export function expectClose(actual: Nested, expected: Nested, within: number): void {
  const [a, b] = [flattened(actual), flattened(expected)];
  expect(a.length).toBe(b.length);
  expect(a.length).toBeGreaterThan(0);
  const worst = Math.max(
    ...a.map((value, i) => (Number.isNaN(value - b[i]) ? Infinity : Math.abs(value - b[i]))),
  );
  expect(worst, `${JSON.stringify(actual)} against ${JSON.stringify(expected)}`).toBeLessThanOrEqual(within);
}

/** The same, as a share of the expected value. */
export function expectRelative(actual: Nested, expected: Nested, within: number): void {
  const [a, b] = [flattened(actual), flattened(expected)];
  expect(a.length).toBe(b.length);
  expectClose(
    a.map((value, i) => value / b[i]),
    b.map(() => 1),
    within,
  );
}
