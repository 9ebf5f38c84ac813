/** A rotation in space from a 3×3 correlation: what a rigid fit asks of its singular value decomposition. */
interface SpatialRotation {
  /** R, rows; proper */
  rotation: number[][];
  /** largest first */
  singularValues: [number, number, number];
  /** tr(Rᵀ H) */
  agreement: number;
  /** a mirror image would agree better; false where the correlation has no third direction */
  reflected: boolean;
}

/** Cosine between two columns at which they count as at right angles. */
const atRightAngles = 1e-15;
/** Each round squares what is left: a handful is enough for anything finite. */
const mostRounds = 40;

/** Columns of H V, one after the other, and of V. Used by one call at a time. */
const images = new Float64Array(9);
const turns = new Float64Array(9);

/**
 * The proper rotation R with the greatest tr(Rᵀ H); null where H has fewer than two directions, so that a turn is left free.
 *
 * One-sided Jacobi rotations (Hestenes 1958), which give small singular values to their own last digits (Demmel & Veselić 1992): that of
 * the third direction of control points in a plane decides whether they can tell a mirror image. With H = Σ σᵢ uᵢ vᵢᵀ the
 * determinant correction of Umeyama 1991 comes to R = u₁v₁ᵀ + u₂v₂ᵀ + (u₁×u₂)(v₁×v₂)ᵀ.
 *
 * @param correlation H, nine entries by rows, finite
 * @param least singular values up to this are taken for 0
 * @param negligible so are those up to this share of the largest
 */
export function spatialRotation(
  correlation: Float64Array,
  least: number,
  negligible: number,
): SpatialRotation | null {
  let size = 0;
  for (let i = 0; i < 9; i++) size = Math.max(size, Math.abs(correlation[i]));
  if (!(size > least)) return null;
  for (let row = 0; row < 3; row++)
    for (let column = 0; column < 3; column++) {
      // of size 1, so that squares neither overflow nor vanish
      images[3 * column + row] = correlation[3 * row + column] / size;
      turns[3 * column + row] = row === column ? 1 : 0;
    }
  for (let round = 0; round < mostRounds; round++) {
    const first = turnedApart(0, 3);
    const second = turnedApart(0, 6);
    const third = turnedApart(3, 6);
    if (!(first || second || third)) break;
  }
  const lengths = [lengthOf(0), lengthOf(3), lengthOf(6)];
  const [i, j, k] = [0, 1, 2].sort((a, b) => lengths[b] - lengths[a]);
  const values: [number, number, number] = [size * lengths[i], size * lengths[j], size * lengths[k]];
  const zero = Math.max(least, negligible * values[0]);
  if (!(values[1] > zero)) return null;
  const [u, v] = [images, turns];
  const [p, q, r] = [3 * i, 3 * j, 3 * k];
  const [a, b] = [lengths[i], lengths[j]];
  const [ux, uy, uz] = [u[p] / a, u[p + 1] / a, u[p + 2] / a];
  const [wx, wy, wz] = [u[q] / b, u[q + 1] / b, u[q + 2] / b];
  const [nx, ny, nz] = [uy * wz - uz * wy, uz * wx - ux * wz, ux * wy - uy * wx];
  const mx = v[p + 1] * v[q + 2] - v[p + 2] * v[q + 1];
  const my = v[p + 2] * v[q] - v[p] * v[q + 2];
  const mz = v[p] * v[q + 1] - v[p + 1] * v[q];
  const row = (first: number, second: number, third: number): number[] => [
    first * v[p] + second * v[q] + third * mx,
    first * v[p + 1] + second * v[q + 1] + third * my,
    first * v[p + 2] + second * v[q + 2] + third * mz,
  ];
  const hasThird = values[2] > zero;
  const along = (u[r] * nx + u[r + 1] * ny + u[r + 2] * nz) * (v[r] * mx + v[r + 1] * my + v[r + 2] * mz);
  const reflected = hasThird && along < 0;
  return {
    rotation: [row(ux, wx, nx), row(uy, wy, ny), row(uz, wz, nz)],
    singularValues: values,
    agreement: values[0] + values[1] + (hasThird ? (reflected ? -values[2] : values[2]) : 0),
    reflected,
  };
}

const lengthOf = (column: number): number =>
  Math.sqrt(images[column] ** 2 + images[column + 1] ** 2 + images[column + 2] ** 2);

/** Turns two columns of H V, and those of V, until they are at right angles; false where they were. */
function turnedApart(p: number, q: number): boolean {
  const pp = images[p] ** 2 + images[p + 1] ** 2 + images[p + 2] ** 2;
  const qq = images[q] ** 2 + images[q + 1] ** 2 + images[q + 2] ** 2;
  const pq = images[p] * images[q] + images[p + 1] * images[q + 1] + images[p + 2] * images[q + 2];
  if (pq === 0 || Math.abs(pq) <= atRightAngles * Math.sqrt(pp) * Math.sqrt(qq)) return false;
  const ratio = (qq - pp) / (2 * pq);
  const tangent = (ratio < 0 ? -1 : 1) / (Math.abs(ratio) + Math.sqrt(ratio * ratio + 1));
  const cos = 1 / Math.sqrt(tangent * tangent + 1);
  const sin = tangent * cos;
  turned(images, p, q, cos, sin);
  turned(turns, p, q, cos, sin);
  return true;
}

function turned(columns: Float64Array, p: number, q: number, cos: number, sin: number): void {
  for (let row = 0; row < 3; row++) {
    const a = columns[p + row];
    const b = columns[q + row];
    columns[p + row] = cos * a - sin * b;
    columns[q + row] = sin * a + cos * b;
  }
}
