/** 3-vectors and 3×3 matrices as plain arrays of rows; no units, no frame: the caller's names carry those. */

export type Vec3 = readonly [number, number, number];
/** Rows. */
export type Mat3 = readonly [Vec3, Vec3, Vec3];

export const zero: Vec3 = [0, 0, 0];
export const identity: Mat3 = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

export const add = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const subtract = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scaled = (a: Vec3, k: number): Vec3 => [a[0] * k, a[1] * k, a[2] * k];
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const length = (a: Vec3): number => Math.hypot(a[0], a[1], a[2]);
export const distance = (a: Vec3, b: Vec3): number => length(subtract(a, b));

/** M v */
export const transformed = (m: Mat3, v: Vec3): Vec3 => [dot(m[0], v), dot(m[1], v), dot(m[2], v)];

export const transposed = (m: Mat3): Mat3 => [
  [m[0][0], m[1][0], m[2][0]],
  [m[0][1], m[1][1], m[2][1]],
  [m[0][2], m[1][2], m[2][2]],
];

/** A B */
export const product = (a: Mat3, b: Mat3): Mat3 => {
  const columns = transposed(b);
  const row = (r: Vec3): Vec3 => [dot(r, columns[0]), dot(r, columns[1]), dot(r, columns[2])];
  return [row(a[0]), row(a[1]), row(a[2])];
};

export const sum = (a: Mat3, b: Mat3): Mat3 => [add(a[0], b[0]), add(a[1], b[1]), add(a[2], b[2])];
export const scaledMatrix = (m: Mat3, k: number): Mat3 => [scaled(m[0], k), scaled(m[1], k), scaled(m[2], k)];
export const diagonal = (x: number, y = x, z = x): Mat3 => [
  [x, 0, 0],
  [0, y, 0],
  [0, 0, z],
];

/** The cross-product matrix [v]×: [v]× w = v × w. */
export const crossMatrix = (v: Vec3): Mat3 => [
  [0, -v[2], v[1]],
  [v[2], 0, -v[0]],
  [-v[1], v[0], 0],
];

/** vᵀ M w */
export const quadratic = (v: Vec3, m: Mat3, w: Vec3 = v): number => dot(v, transformed(m, w));
