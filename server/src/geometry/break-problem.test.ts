import { Matrix, QrDecomposition } from 'ml-matrix';
import { expect, test } from 'vitest';
import { seededRandom } from '../../../tests/published/seeded-random';
import { chiSquareBetweenKnots } from './break-problem';

/** One channel that is straight up to a break and straight at another slope from there on. */
const columnsAt = (knots: readonly number[], h: number): number[][] => [
  knots.map(() => 1),
  knots.map((x) => x - knots[0]),
  knots.map((x) => Math.max(0, x - h)),
];

test("χ² between the knots is that of the library's least squares there, in whatever order the places are asked for", () => {
  const random = seededRandom(3);
  for (let run = 0; run < 200; run++) {
    const unit = 10 ** random.uniform(-30, 30);
    const count = 5 + (run % 8);
    const knots = [random.uniform(-2000, 2000) * unit];
    for (let i = 1; i < count; i++) knots.push(knots[i - 1] + random.uniform(40, 400) * unit);
    const observed = knots.map(() => random.normal(3));
    const [first, last] = [1, count - 2];
    const profile = chiSquareBetweenKnots({
      whiten: () => {},
      observed: Float64Array.from(observed),
      knots,
      first,
      last,
      count: 3,
      design: (h, columns) => columns.set(columnsAt(knots, h).flat()),
      byBreak: () => {},
    });
    for (let i = 0; i < 10; i++) {
      const place = random.uniform(knots[first], knots[last]);
      const design = new Matrix(
        columnsAt(knots, place).map((column, k) => column.map((x) => (k === 0 ? x : x / unit))),
      ).transpose();
      const values = Matrix.columnVector(observed);
      const rest = Matrix.sub(values, design.mmul(new QrDecomposition(design).solve(values))).norm(
        'frobenius',
      );
      expect(profile(place) - rest ** 2).toBeCloseTo(0, 6);
    }
  }
});
