import { Matrix, QrDecomposition } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../tests/published/seeded-random';
import { leastSquares, solveLeastSquares } from './orthogonal';

describe('least squares by reflections', () => {
  it("gives the library's coefficients and sum of squares, at any size of columns and values", () => {
    const random = seededRandom(11);
    for (let run = 0; run < 500; run++) {
      const count = 1 + (run % 4);
      const rows = count + Math.floor(random.uniform(0, 12));
      const entries = Array.from({ length: count * rows }, () => random.normal(1));
      const observed = Array.from({ length: rows }, () => random.normal(1));
      const design = Matrix.from1DArray(count, rows, entries).transpose();
      const decomposition = new QrDecomposition(design);
      const values = Matrix.columnVector(observed);
      const known = decomposition.solve(values);
      const rest = Matrix.sub(values, design.mmul(known)).norm('frobenius');

      const units = Array.from({ length: count }, () => 10 ** random.uniform(-140, 140));
      const unit = 10 ** random.uniform(-140, 140);
      const columns = Float64Array.from(entries.map((value, i) => value * units[Math.floor(i / rows)]));
      const solved = Float64Array.from(observed.map((value) => value * unit));
      expect(solveLeastSquares(columns, count, solved)).toBe(true);
      const largest = Math.max(1, known.norm('frobenius'));
      for (let k = 0; k < count; k++)
        expect(((solved[k] / unit) * units[k] - known.get(k, 0)) / largest).toBeCloseTo(0, 8);
      expect(Math.sqrt(leastSquares(solved, count)) / unit).toBeCloseTo(rest, 9);
    }
  });

  it('by hand: a mean, and a line through three points', () => {
    const mean = Float64Array.of(1, 2, 6);
    expect(solveLeastSquares(Float64Array.of(1, 1, 1), 1, mean)).toBe(true);
    expect(mean[0]).toBeCloseTo(3, 12);
    expect(leastSquares(mean, 1)).toBeCloseTo(4 + 1 + 9, 12);
    // 0, 0, 3 at 0, 1, 2: level −0.5, slope 1.5, left over 0.5, −1, 0.5
    const line = Float64Array.of(0, 0, 3);
    expect(solveLeastSquares(Float64Array.of(1, 1, 1, 0, 1, 2), 2, line)).toBe(true);
    expect([line[0], line[1]]).toEqual([expect.closeTo(-0.5, 12), expect.closeTo(1.5, 12)]);
    expect(leastSquares(line, 2)).toBeCloseTo(1.5, 12);
  });

  it('says where a column adds nothing', () => {
    expect(solveLeastSquares(Float64Array.of(0, 0, 0), 1, Float64Array.of(1, 2, 3))).toBe(false);
    expect(solveLeastSquares(Float64Array.of(1, 0, 0, 2, 0, 0), 2, Float64Array.of(1, 2, 3))).toBe(false);
  });
});
