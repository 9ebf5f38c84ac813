import type { Observations } from './observations';

/**
 * The search through all subsets of a base, as a shift: sums that are counted on from one subset to the next, and no array for any of them. What
 * it finds is asked again, one by one, as every other story is.
 */

/** A shift needs this much of χ², and this much for each unit of what would still scatter, 8 + χ² of the base under it. */
export interface ShiftLimits {
  readonly chiSquare: number;
  readonly byScatter: number;
  /** What counts as scatter before any was seen. */
  readonly knownScatter: number;
}

/** Under this share of H's size a direction of a shift is not held, as of any motion. */
const leastHeld = 1e-10;
/** Limits are taken a little lower here: rounding leaves nothing out. */
const slack = 1 - 1e-9;

/** Where the sums of one subset stand: Σ w, Σ w r and Σ w ρ with ρ from the centroid; then the shift that fits best. */
const w0 = 0;
const g0 = 1;
const rho0 = 4;
const shift0 = 7;

/**
 * Subsets as numbers, the first point as the highest of n digits, ascending: in the order of their members. Those with a gain over the
 * limits, up to 31 points.
 * @param isTried of a subset and how many are in it
 */
export function subsetsOverLimits(
  { base, weights, lefts, frame }: Observations,
  { chiSquare, byScatter, knownScatter }: ShiftLimits,
  isTried: (subset: number, moved: number) => boolean,
): number[] {
  const n = base.length;
  const points = new Float64Array(7 * n);
  for (let i = 0; i < n; i++) points.set([weights[i], ...lefts[i].residual, ...lefts[i].arm], 7 * i);
  const sums = new Float64Array(10);
  const found: number[] = [];
  let subset = 0;
  let moved = 0;
  // Gray's order: one point joins or leaves at each step
  for (let step = 1; step < 2 ** n; step++) {
    const i = 31 - Math.clz32(step & -step);
    const digit = 1 << (n - 1 - i);
    subset ^= digit;
    const sign = (subset & digit) === 0 ? -1 : 1;
    moved += sign;
    const w = sign * points[7 * i];
    sums[w0] += w;
    for (let k = 1; k < 7; k++) sums[k] += w * points[7 * i + k];
    if (!isTried(subset, moved)) continue;
    const gain = gainOfShift(sums, frame);
    if (gain <= slack * chiSquare) continue;
    const scatter = knownScatter + chiSquareUnder(sums, subset, points, frame);
    if (gain > slack * byScatter * scatter) found.push(subset);
  }
  return found.sort((a, b) => a - b);
}

/**
 * gᵀ H⁻¹ g with H = (W_s − W_s²/W) I − [ρ]×ᵀ J⁻¹ [ρ]×, solved by cofactors, all written out; 0 where H is not positive definite. Writes the shift
 * H⁻¹ g beside the sums.
 */
function gainOfShift(
  sums: Float64Array,
  { shiftVariance, turnCovariance: c }: Observations['frame'],
): number {
  const x = sums[rho0];
  const y = sums[rho0 + 1];
  const z = sums[rho0 + 2];
  const own = sums[w0] - sums[w0] * sums[w0] * shiftVariance;
  // H
  const xx = own - (z * z * c[1][1] - 2 * y * z * c[1][2] + y * y * c[2][2]);
  const yy = own - (z * z * c[0][0] - 2 * x * z * c[0][2] + x * x * c[2][2]);
  const zz = own - (y * y * c[0][0] - 2 * x * y * c[0][1] + x * x * c[1][1]);
  const xy = z * z * c[0][1] - x * z * c[1][2] - y * z * c[0][2] + x * y * c[2][2];
  const xz = y * y * c[0][2] - x * y * c[1][2] - y * z * c[0][1] + x * z * c[1][1];
  const yz = x * x * c[1][2] - x * y * c[0][2] - x * z * c[0][1] + y * z * c[0][0];
  // its cofactors and determinant
  const a = yy * zz - yz * yz;
  const b = xz * yz - xy * zz;
  const d = xy * yz - xz * yy;
  const e = xy * xz - xx * yz;
  const minor = xx * yy - xy * xy;
  const determinant = xx * a + xy * b + xz * d;
  const size = Math.max(xx, yy, zz);
  if (!(xx > 0 && minor > 0 && determinant > leastHeld * size * size * size)) return 0;
  // H⁻¹ g, and g on it
  const gx = sums[g0];
  const gy = sums[g0 + 1];
  const gz = sums[g0 + 2];
  sums[shift0] = (a * gx + b * gy + d * gz) / determinant;
  sums[shift0 + 1] = (b * gx + (xx * zz - xz * xz) * gy + e * gz) / determinant;
  sums[shift0 + 2] = (d * gx + e * gy + minor * gz) / determinant;
  return gx * sums[shift0] + gy * sums[shift0 + 1] + gz * sums[shift0 + 2];
}

/** χ² that is left of the base once the subset is shifted back and the frame follows: by W_s u/W, and turned by J⁻¹ (ρ × u). */
function chiSquareUnder(
  sums: Float64Array,
  subset: number,
  points: Float64Array,
  { shiftVariance, turnCovariance: c }: Observations['frame'],
): number {
  const n = points.length / 7;
  const ux = sums[shift0];
  const uy = sums[shift0 + 1];
  const uz = sums[shift0 + 2];
  const share = sums[w0] * shiftVariance;
  const mx = sums[rho0 + 1] * uz - sums[rho0 + 2] * uy;
  const my = sums[rho0 + 2] * ux - sums[rho0] * uz;
  const mz = sums[rho0] * uy - sums[rho0 + 1] * ux;
  const tx = c[0][0] * mx + c[0][1] * my + c[0][2] * mz;
  const ty = c[1][0] * mx + c[1][1] * my + c[1][2] * mz;
  const tz = c[2][0] * mx + c[2][1] * my + c[2][2] * mz;
  let chiSquare = 0;
  for (let i = 0; i < n; i++) {
    const at = 7 * i;
    const back = share - ((subset >> (n - 1 - i)) & 1);
    const rx = points[at + 4];
    const ry = points[at + 5];
    const rz = points[at + 6];
    const x = points[at + 1] + back * ux + ty * rz - tz * ry;
    const y = points[at + 2] + back * uy + tz * rx - tx * rz;
    const z = points[at + 3] + back * uz + tx * ry - ty * rx;
    chiSquare += points[at] * (x * x + y * y + z * z);
  }
  return chiSquare;
}
