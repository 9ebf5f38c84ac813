import type { Mat3, Vec3 } from './vector';

/** One eigenvalue of a symmetric 3×3 matrix with its unit eigenvector. */
interface EigenPair {
  value: number;
  vector: Vec3;
}

/** What is left beside the diagonal, as a share of the two values there, when it is rounding. */
const settled = 2 ** -53;
/** Each round squares what is left: a handful is enough for anything finite. */
const mostRounds = 40;

/** Rows of the matrix that is being made diagonal, and the turns so far: columns are the eigenvectors. Used by one call at a time. */
const entries = new Float64Array(9);
const turns = new Float64Array(9);

/**
 * The three eigenpairs of a symmetric matrix, smallest value first, vectors at right angles to each other.
 * Cyclic Jacobi rotations (Golub & Van Loan 2013, section 8.5), written out: every control point of every base that is tried asks.
 */
export function eigenPairs(matrix: Mat3): EigenPair[] {
  diagonalised(matrix);
  const order = ascending(entries[0], entries[4], entries[8]);
  return [pairAt(order[0]), pairAt(order[1]), pairAt(order[2])];
}

/** The eigenvalues alone, smallest first. */
export function eigenvalues(matrix: Mat3): [number, number, number] {
  diagonalised(matrix);
  const order = ascending(entries[0], entries[4], entries[8]);
  return [entries[4 * order[0]], entries[4 * order[1]], entries[4 * order[2]]];
}

const pairAt = (column: number): EigenPair => ({
  value: entries[4 * column],
  vector: [turns[column], turns[3 + column], turns[6 + column]],
});

const ascending = (a: number, b: number, c: number): readonly [number, number, number] => {
  if (a <= b) return b <= c ? [0, 1, 2] : a <= c ? [0, 2, 1] : [2, 0, 1];
  return a <= c ? [1, 0, 2] : b <= c ? [1, 2, 0] : [2, 1, 0];
};

function diagonalised(matrix: Mat3): void {
  for (let row = 0; row < 3; row++)
    for (let column = 0; column < 3; column++) {
      entries[3 * row + column] = matrix[row][column];
      turns[3 * row + column] = row === column ? 1 : 0;
    }
  for (let round = 0; round < mostRounds; round++) {
    const first = turnedAway(0, 1);
    const second = turnedAway(0, 2);
    const third = turnedAway(1, 2);
    if (!(first || second || third)) return;
  }
}

/** Turns about the third axis until the entry at (p, q) is gone; false where it was rounding already. */
function turnedAway(p: number, q: number): boolean {
  const off = entries[3 * p + q];
  const pp = entries[4 * p];
  const qq = entries[4 * q];
  if (off === 0 || Math.abs(off) <= settled * Math.sqrt(Math.abs(pp)) * Math.sqrt(Math.abs(qq))) return false;
  const ratio = (qq - pp) / (2 * off);
  const tangent = (ratio < 0 ? -1 : 1) / (Math.abs(ratio) + Math.sqrt(ratio * ratio + 1));
  const cos = 1 / Math.sqrt(tangent * tangent + 1);
  const sin = tangent * cos;
  const other = 3 - p - q;
  entries[4 * p] = pp - tangent * off;
  entries[4 * q] = qq + tangent * off;
  entries[3 * p + q] = 0;
  entries[3 * q + p] = 0;
  const [up, uq] = [entries[3 * other + p], entries[3 * other + q]];
  entries[3 * other + p] = cos * up - sin * uq;
  entries[3 * p + other] = entries[3 * other + p];
  entries[3 * other + q] = sin * up + cos * uq;
  entries[3 * q + other] = entries[3 * other + q];
  for (let row = 0; row < 9; row += 3) {
    const [vp, vq] = [turns[row + p], turns[row + q]];
    turns[row + p] = cos * vp - sin * vq;
    turns[row + q] = sin * vp + cos * vq;
  }
  return true;
}

/** Σ f(λ) v vᵀ: a function of a symmetric matrix, from its eigenpairs. */
export function matrixFunction(pairs: readonly EigenPair[], f: (value: number) => number): Mat3 {
  const [first, second, third] = pairs;
  const [a, b, c] = [f(first.value), f(second.value), f(third.value)];
  const [u, v, w] = [first.vector, second.vector, third.vector];
  const entry = (row: 0 | 1 | 2, column: 0 | 1 | 2): number =>
    a * u[row] * u[column] + b * v[row] * v[column] + c * w[row] * w[column];
  const [xx, xy, xz] = [entry(0, 0), entry(0, 1), entry(0, 2)];
  const [yy, yz, zz] = [entry(1, 1), entry(1, 2), entry(2, 2)];
  return [
    [xx, xy, xz],
    [xy, yy, yz],
    [xz, yz, zz],
  ];
}
