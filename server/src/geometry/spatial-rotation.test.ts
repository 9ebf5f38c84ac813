import fc from 'fast-check';
import { determinant, Matrix, SingularValueDecomposition } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { spatialRotation } from './spatial-rotation';

const entries = fc.array(
  fc.integer({ min: -1_000_000, max: 1_000_000 }).map((millionths) => millionths / 1e6),
  { minLength: 9, maxLength: 9 },
);
const scale = fc.integer({ min: -120, max: 120 }).map((power) => 10 ** power);
const negligible = 1e-12;

/** U diag(1, 1, ±1) Vᵀ of a library's general decomposition. */
function expectedOf(matrix: Matrix) {
  const decomposition = new SingularValueDecomposition(matrix);
  const [u, v] = [decomposition.leftSingularVectors, decomposition.rightSingularVectors];
  const handedness = Math.sign(determinant(u) * determinant(v));
  const rotation = u.mmul(Matrix.diag([1, 1, handedness])).mmul(v.transpose());
  return { values: decomposition.diagonal, handedness, rotation };
}

describe('spatialRotation', () => {
  it('agrees with the general decomposition of a library, at any scale', () => {
    fc.assert(
      fc.property(entries, scale, (unit, size) => {
        const plain = Matrix.from1DArray(3, 3, unit);
        const { values, handedness, rotation } = expectedOf(plain);
        // where two directions weigh alike (with the mirrored one counted as negative) many rotations are as good
        fc.pre(values[2] > 1e-3 && values[1] + handedness * values[2] > 1e-3);
        const found = spatialRotation(
          Float64Array.from(unit, (value) => value * size),
          0,
          negligible,
        )!;
        found.singularValues.forEach((value, i) => {
          expect(value / size).toBeCloseTo(values[i], 13);
        });
        expect(found.reflected).toBe(handedness < 0);
        expect(Matrix.sub(new Matrix(found.rotation), rotation).norm('max')).toBeLessThan(1e-11);
        expect(found.agreement / size).toBeCloseTo(values[0] + values[1] + handedness * values[2], 13);
      }),
      { numRuns: 300 },
    );
  });

  it('is proper and orthogonal to the last digits, however flat the points', () => {
    const proper = fc.property(entries, fc.integer({ min: 0, max: 11 }), (unit, flatness) => {
      const thin = unit.map((value, i) => (i % 3 === 2 ? value * 10 ** -flatness : value));
      const found = spatialRotation(Float64Array.from(thin), 0, negligible);
      fc.pre(found !== null);
      const rotation = new Matrix(found!.rotation);
      expect(determinant(rotation)).toBeCloseTo(1, 13);
      expect(Matrix.sub(rotation.mmul(rotation.transpose()), Matrix.eye(3)).norm('max')).toBeLessThan(1e-14);
    });
    fc.assert(proper, { numRuns: 300 });
  });

  it('tells no mirror image in a plane, and nothing at all on a line', () => {
    const plane = spatialRotation(Float64Array.of(2, 0, 0, 0, -1, 0, 0, 0, 0), 0, negligible)!;
    expect(plane.reflected).toBe(false);
    expect(plane.singularValues).toEqual([2, 1, 0]);
    expect(plane.agreement).toBe(3);
    // half a turn about the length, as far as a plane can tell
    expect(plane.rotation.flat().map(Math.abs)).toEqual([1, 0, 0, 0, 1, 0, 0, 0, 1]);
    expect(determinant(new Matrix(plane.rotation))).toBe(1);
    expect(spatialRotation(Float64Array.of(2, 0, 0, 0, 0, 0, 0, 0, 0), 0, negligible)).toBeNull();
    expect(spatialRotation(new Float64Array(9), 0, negligible)).toBeNull();
    expect(spatialRotation(Float64Array.of(2, 0, 0, 0, 1, 0, 0, 0, 0), 1, negligible)).toBeNull();
  });

  it('mirrors the direction that weighs least', () => {
    const found = spatialRotation(Float64Array.of(3, 0, 0, 0, 2, 0, 0, 0, -1), 0, negligible)!;
    expect(found.reflected).toBe(true);
    expect(found.rotation).toEqual([
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ]);
    expect(found.agreement).toBe(4);
  });
});
