import { expect, test } from 'vitest';
import { stepOf } from './copied';

const measure = (...numbers: [number, number, number][]) => ({
  readings: numbers.map((triple, i) => ({
    id: `${i}`,
    triplesMm: [triple],
    unreachable: false,
    asBefore: false,
    key: { block: { start: 0 }, start: 0, end: 0 },
    value: { block: { start: 0 }, start: 0, end: 0 },
    typed: null,
    hasPlainKey: true,
  })),
});

test.each([
  [0.1, [3012.3, 452, 352.1]],
  [0.5, [3012.5, 452, 352]],
  [0.2, [3012.4, 452.2, 352.6]],
  [1, [3012, 453, 352]],
  [0.01, [3012.13, 452, 352.1]],
  [5, [3015, 455, 350]],
])('numbers are rounded to %s', (step, numbers) =>
  expect(stepOf(measure([numbers[0], numbers[1], numbers[2]]), 'mm')).toBeCloseTo(step, 9),
);

test('the step is that of the file’s own unit, and of all its rows', () => {
  expect(stepOf(measure([118.5 * 25.4, 17.63 * 25.4, 0]), 'inch')).toBeCloseTo(0.254, 9);
  expect(stepOf(measure([1.5, 2, 3], [1, 2, 3.1]), 'mm')).toBeCloseTo(0.1, 9);
});
