import type { Mat3, Vec3 } from './vector';

/**
 * The small rigid motion that fits displacements best, from sums that can be added up and taken away again: a fit without some of its
 * points costs the solution of three equations. Weights may be negative, which is how errors that points share are counted, as long as
 * the rest outweighs them.
 *
 * Sums of w, w x, w x xᵀ (upper triangle by rows), w d and w x × d, for places x and displacements d.
 */
export type MotionSums = Float64Array;

export const emptySums = (): MotionSums => new Float64Array(16);

/** Adds one place with its displacement. Places should lie about the origin of the sums, or digits are lost. */
export function addPlace(sums: MotionSums, weight: number, x: Vec3, d: Vec3): void {
  sums[0] += weight;
  for (let k = 0; k < 3; k++) {
    sums[1 + k] += weight * x[k];
    sums[10 + k] += weight * d[k];
  }
  sums[4] += weight * x[0] * x[0];
  sums[5] += weight * x[0] * x[1];
  sums[6] += weight * x[0] * x[2];
  sums[7] += weight * x[1] * x[1];
  sums[8] += weight * x[1] * x[2];
  sums[9] += weight * x[2] * x[2];
  sums[13] += weight * (x[1] * d[2] - x[2] * d[1]);
  sums[14] += weight * (x[2] * d[0] - x[0] * d[2]);
  sums[15] += weight * (x[0] * d[1] - x[1] * d[0]);
}

/** Adds other sums, times a factor: −1 takes them away. */
export function addSums(sums: MotionSums, other: MotionSums, factor = 1): void {
  for (let i = 0; i < sums.length; i++) sums[i] += factor * other[i];
}

/** x ↦ shift + turn × (x − centroid), with Cov shift = `shiftVariance` I and Cov turn = `turnCovariance` (rad²), nothing in common. */
export interface SmallMotion {
  readonly centroid: Vec3;
  readonly shift: Vec3;
  readonly turn: Vec3;
  /** 1 / Σw */
  readonly shiftVariance: number;
  /** J⁻¹ of J = Σ w (|r|² I − r rᵀ), r from the centroid */
  readonly turnCovariance: Mat3;
}

/** Under this share of J's size a direction is not held. */
const leastHeld = 1e-10;

/**
 * The best motion and how certain it is; null where the places do not hold one: too few, on a line, or outweighed by negative weights.
 * Source: the normal equations of the linearised fit about the weighted centroid, as in Fitzpatrick, West & Maurer 1998.
 */
export function smallMotion(sums: MotionSums): SmallMotion | null {
  const total = sums[0];
  if (!(total > 0)) return null;
  const [cx, cy, cz] = [sums[1] / total, sums[2] / total, sums[3] / total];
  const xx = sums[4] - total * cx * cx;
  const xy = sums[5] - total * cx * cy;
  const xz = sums[6] - total * cx * cz;
  const yy = sums[7] - total * cy * cy;
  const yz = sums[8] - total * cy * cz;
  const zz = sums[9] - total * cz * cz;
  const turnCovariance = symmetricInverse([
    [yy + zz, -xy, -xz],
    [-xy, xx + zz, -yz],
    [-xz, -yz, xx + yy],
  ]);
  if (turnCovariance === null) return null;
  const [dx, dy, dz] = [sums[10], sums[11], sums[12]];
  const moment: Vec3 = [
    sums[13] - (cy * dz - cz * dy),
    sums[14] - (cz * dx - cx * dz),
    sums[15] - (cx * dy - cy * dx),
  ];
  return {
    centroid: [cx, cy, cz],
    shift: [dx / total, dy / total, dz / total],
    turn: timesVector(turnCovariance, moment),
    shiftVariance: 1 / total,
    turnCovariance,
  };
}

/** What the motion does at a place. */
export function motionAt(
  { centroid, shift, turn }: Pick<SmallMotion, 'centroid' | 'shift' | 'turn'>,
  x: Vec3,
): Vec3 {
  const [rx, ry, rz] = [x[0] - centroid[0], x[1] - centroid[1], x[2] - centroid[2]];
  return [
    shift[0] + turn[1] * rz - turn[2] * ry,
    shift[1] + turn[2] * rx - turn[0] * rz,
    shift[2] + turn[0] * ry - turn[1] * rx,
  ];
}

/** A(x) = shiftVariance I + [r]× turnCovariance [r]×ᵀ, r from the centroid. */
export function motionCovarianceAt(
  { centroid, shiftVariance, turnCovariance: c }: SmallMotion,
  place: Vec3,
): Mat3 {
  const [x, y, z] = [place[0] - centroid[0], place[1] - centroid[1], place[2] - centroid[2]];
  // [r]× C, row by row
  const a: Vec3 = [y * c[2][0] - z * c[1][0], y * c[2][1] - z * c[1][1], y * c[2][2] - z * c[1][2]];
  const b: Vec3 = [z * c[0][0] - x * c[2][0], z * c[0][1] - x * c[2][1], z * c[0][2] - x * c[2][2]];
  const d: Vec3 = [x * c[1][0] - y * c[0][0], x * c[1][1] - y * c[0][1], x * c[1][2] - y * c[0][2]];
  const xy = z * a[0] - x * a[2];
  const xz = x * a[1] - y * a[0];
  const yz = x * b[1] - y * b[0];
  return [
    [shiftVariance + y * a[2] - z * a[1], xy, xz],
    [xy, shiftVariance + z * b[0] - x * b[2], yz],
    [xz, yz, shiftVariance + x * d[1] - y * d[0]],
  ];
}

/** M⁻¹ of a symmetric matrix; null where it is not positive definite, as far as rounding can tell. */
function symmetricInverse(m: Mat3): Mat3 | null {
  const [[xx, xy, xz], [, yy, yz], [, , zz]] = m;
  const size = Math.max(xx, yy, zz);
  const minor = xx * yy - xy * xy;
  const [a, b, c] = [yy * zz - yz * yz, xz * yz - xy * zz, xy * yz - xz * yy];
  const determinant = xx * a + xy * b + xz * c;
  // smallest eigenvalue ≥ determinant / size² / 4
  if (!(xx > 0 && minor > 0 && determinant > leastHeld * size ** 3)) return null;
  const k = 1 / determinant;
  const [f, g] = [k * (xy * xz - xx * yz), k * minor];
  return [
    [k * a, k * b, k * c],
    [k * b, k * (xx * zz - xz * xz), f],
    [k * c, f, g],
  ];
}

const timesVector = (m: Mat3, v: Vec3): Vec3 => [
  m[0][0] * v[0] + m[0][1] * v[1] + m[0][2] * v[2],
  m[1][0] * v[0] + m[1][1] * v[1] + m[1][2] * v[2],
  m[2][0] * v[0] + m[2][1] * v[1] + m[2][2] * v[2],
];

/** eᵀ S⁻¹ e; infinite where S is not positive definite and e is not 0. */
export function squaredDistance(s: Mat3, e: Vec3): number {
  const inverse = symmetricInverse(s);
  if (inverse === null) return e.some((each) => each !== 0) ? Number.POSITIVE_INFINITY : 0;
  const v = timesVector(inverse, e);
  return e[0] * v[0] + e[1] * v[1] + e[2] * v[2];
}
