import fc from 'fast-check';
import { Matrix } from 'ml-matrix';
import { expect, test } from 'vitest';
import { factored, whitened, whitenedSquares } from './positive-definite';

const numbers = (length: number) =>
  fc.array(fc.double({ min: -1000, max: 1000, noNaN: true }), { minLength: length, maxLength: length });

test('squares without matrix objects are those with them, to the last digit', () => {
  let found = 0;
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 4 }).chain((size) => fc.tuple(numbers(size * (size + 1)), numbers(size))),
      fc.constantFrom(0, 1),
      ([roots, values], shift) => {
        const size = values.length;
        const root = new Matrix(
          Array.from({ length: size + 1 }, (_, i) => roots.slice(i * size, (i + 1) * size)),
        );
        // half of them are not positive definite by far
        const matrix = root
          .transpose()
          .mmul(root)
          .sub(Matrix.eye(size).mul(shift * 1e5));
        const factors = factored(matrix);
        const squares = whitenedSquares(size)(
          Float64Array.from(matrix.to1DArray()),
          Float64Array.from(values),
        );
        if (factors === null) {
          expect(squares).toBeNull();
          return;
        }
        found++;
        const whole = whitened(factors, Matrix.columnVector(values)).to1DArray();
        expect(squares).toBe(whole.reduce((total, each) => total + each * each, 0));
      },
    ),
    { numRuns: 500 },
  );
  expect(found).toBeGreaterThan(100);
});

test('by hand: 9 of a matrix of one, nothing of one that is not positive', () => {
  const squares = whitenedSquares(1);
  expect(squares(Float64Array.of(4), Float64Array.of(6))).toBe(9);
  expect(squares(Float64Array.of(-4), Float64Array.of(6))).toBeNull();
});
