import fc from 'fast-check';
import { CholeskyDecomposition, inverse, Matrix } from 'ml-matrix';
import { describe, expect, it, test } from 'vitest';
import { seededRandom } from '../../../tests/published/seeded-random';
import { factored, inverseOf, solve, whiten, whitenedSquares } from './positive-definite';

const numbers = (length: number) =>
  fc.array(fc.double({ min: -1000, max: 1000, noNaN: true }), { minLength: length, maxLength: length });

/** A matrix RᵀR, less so much of the unit matrix, with values beside it. */
const posed = (most: number) =>
  fc
    .tuple(
      fc.integer({ min: 1, max: most }).chain((size) => fc.tuple(numbers(size * (size + 1)), numbers(size))),
      fc.constantFrom(0, 1),
    )
    .map(([[roots, values], shift]) => {
      const size = values.length;
      const root = new Matrix(
        Array.from({ length: size + 1 }, (_, i) => roots.slice(i * size, (i + 1) * size)),
      );
      // half of them are not positive definite by far
      const matrix = root
        .transpose()
        .mmul(root)
        .sub(Matrix.eye(size).mul(shift * 1e5));
      return { size, matrix, values };
    });
const flat = (matrix: Matrix) => Float64Array.from(matrix.to1DArray());

/** Scales and factor by the library's routine; null where it finds no such factor. */
function factoredByLibrary(matrix: Matrix): { scales: number[]; lower: Matrix } | null {
  const scales = matrix.diagonal().map(Math.sqrt);
  if (!scales.every((scale) => scale > 0)) return null;
  const unit = matrix.clone();
  for (let row = 0; row < matrix.rows; row++)
    for (let column = 0; column < matrix.rows; column++) {
      const [from, to] = [Math.max(row, column), Math.min(row, column)];
      unit.set(row, column, (matrix.get(from, to) + matrix.get(to, from)) / 2 / scales[from] / scales[to]);
    }
  const decomposition = new CholeskyDecomposition(unit);
  const lower = decomposition.lowerTriangularMatrix;
  return decomposition.isPositiveDefinite() && lower.diagonal().every((pivot) => pivot ** 2 > 1e-13)
    ? { scales, lower }
    : null;
}

/** (S L)⁻¹ y */
function whitenedByLibrary(
  { scales, lower }: { scales: number[]; lower: Matrix },
  values: readonly number[],
) {
  const done: number[] = [];
  values.forEach((value, row) => {
    let rest = value / scales[row];
    for (let k = 0; k < row; k++) rest -= lower.get(row, k) * done[k];
    done.push(rest / lower.get(row, row));
  });
  return done;
}

test('squares without matrix objects are those with them, to the last digit', () => {
  let found = 0;
  fc.assert(
    fc.property(posed(4), ({ size, matrix, values }) => {
      const factors = factoredByLibrary(matrix);
      const squares = whitenedSquares(size)(flat(matrix), Float64Array.from(values));
      if (factors === null) {
        expect(squares).toBeNull();
        return;
      }
      found++;
      const whole = whitenedByLibrary(factors, values);
      expect(squares).toBe(whole.reduce((total, each) => total + each * each, 0));
    }),
    { numRuns: 500 },
  );
  expect(found).toBeGreaterThan(100);
});

test('by hand: 9 of a matrix of one, nothing of one that is not positive', () => {
  const squares = whitenedSquares(1);
  expect(squares(Float64Array.of(4), Float64Array.of(6))).toBe(9);
  expect(squares(Float64Array.of(-4), Float64Array.of(6))).toBeNull();
});

describe('the factors', () => {
  it("are the library's to the last digit, and so are whitened columns", () => {
    let found = 0;
    fc.assert(
      fc.property(posed(8), ({ size, matrix, values }) => {
        const known = factoredByLibrary(matrix);
        const factors = factored(flat(matrix), size);
        expect(factors === null).toBe(known === null);
        if (factors === null || known === null) return;
        found++;
        expect([...factors.scales]).toEqual(known.scales);
        for (let row = 0; row < size; row++)
          for (let column = 0; column <= row; column++)
            expect(factors.lower[row * size + column]).toBe(known.lower.get(row, column));
        // one column with zeros at its head beside it
        const second = values.map((value, i) => (i < size / 2 ? 0 : value));
        const columns = Float64Array.from([...values, ...second]);
        whiten(factors, columns);
        const whole = [...whitenedByLibrary(known, values), ...whitenedByLibrary(known, second)];
        whole.forEach((value, i) => {
          expect(columns[i] === value).toBe(true);
        });
      }),
      { numRuns: 1000 },
    );
    expect(found).toBeGreaterThan(50);
  });

  it('solve and invert as the library does, whatever the units of the rows', () => {
    const random = seededRandom(7);
    for (let run = 0; run < 300; run++) {
      const size = 1 + (run % 8);
      const root = new Matrix(
        Array.from({ length: size + 3 }, () => Array.from({ length: size }, () => random.normal(1))),
      );
      const matrix = root.transpose().mmul(root);
      const values = Array.from({ length: size }, () => random.normal(1));
      const whole = inverse(matrix);
      const solution = whole.mmul(Matrix.columnVector(values)).to1DArray();

      const units = values.map(() => 10 ** random.uniform(-70, 70));
      const scaled = flat(matrix).map((value, i) => value * units[i % size] * units[Math.floor(i / size)]);
      const factors = factored(scaled, size)!;
      const solved = Float64Array.from(values.map((value, i) => value * units[i]));
      solve(factors, solved);
      const inverted = inverseOf(factors);
      const largest = Math.max(...whole.diagonal());
      for (let row = 0; row < size; row++) {
        expect((solved[row] * units[row] - solution[row]) / largest).toBeCloseTo(0, 8);
        for (let column = 0; column < size; column++) {
          const value = inverted[row * size + column] * units[row] * units[column];
          expect((value - whole.get(row, column)) / largest).toBeCloseTo(0, 9);
        }
      }
    }
  });

  it('are refused of what is not positive definite, not finite, or so only by rounding', () => {
    expect(factored(Float64Array.of(1, 2, 2, 1), 2)).toBeNull();
    expect(factored(Float64Array.of(1, 1, 1, 1), 2)).toBeNull();
    expect(factored(Float64Array.of(1, Number.NaN, Number.NaN, 1), 2)).toBeNull();
    expect(factored(Float64Array.of(1, 0, 0, Number.POSITIVE_INFINITY), 2)).toBeNull();
    expect(factored(Float64Array.of(0), 1)).toBeNull();
    expect(factored(Float64Array.of(1e-300, 0, 0, 1e300), 2)).not.toBeNull();
  });
});
