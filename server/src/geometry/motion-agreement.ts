import { Matrix, pseudoInverse } from 'ml-matrix';
import { motionCovariance } from './motion-covariance';
import { rigidFit, weightedMean } from './rigid-motion';
import { eigenPairs } from './symmetric';
import { cross, identity, type Mat3, subtract, type Vec3 } from './vector';

/** Points of one body: where they were, where they are, and 1/u² of each on every axis. */
export interface MovedPoints {
  readonly from: readonly Vec3[];
  readonly to: readonly Vec3[];
  readonly weights: readonly number[];
}

/** The generalised distance between two rigid motions, squared, and the number of figures that it is told from: χ² where they are one. */
interface MotionDistance {
  readonly squared: number;
  readonly degreesOfFreedom: number;
}

/** An axis that points hold a turn about less firmly than this, rad (1°), shows no turn. */
const leastInformation = (180 / Math.PI) ** 2;

/**
 * How far two sets of points are from having moved as one body: by how much χ² grows when one rigid motion has to carry both instead of one
 * each. For motions that their points hold, this is the squared distance between them by the covariance of their difference; what moves
 * all points alike, such as a doubtful alignment, drops out. A turn that neither set shows by itself is held at none, else two single
 * points would always have turned about one another.
 * Source: the likelihood ratio of nested linear models, as in Draper & Smith 1998; motions fitted as in Arun, Huang & Blostein 1987.
 */
export function motionDistance(a: MovedPoints, b: MovedPoints): MotionDistance {
  const [ofA, ofB] = [ownMotion(a), ownMotion(b)];
  const both = joinedPoints([a, b]);
  const joint =
    ofA.axes.length === 3 || ofB.axes.length === 3
      ? { chiSquare: chiSquareOf(both), turns: 3 }
      : restrictedFit(both, spanOf([...ofA.axes, ...ofB.axes]));
  return {
    squared: Math.max(0, joint.chiSquare - ofA.chiSquare - ofB.chiSquare),
    degreesOfFreedom: Math.max(3, 3 + ofA.axes.length + ofB.axes.length - joint.turns),
  };
}

export const joinedPoints = (sets: readonly MovedPoints[]): MovedPoints => ({
  from: sets.flatMap(({ from }) => from),
  to: sets.flatMap(({ to }) => to),
  weights: sets.flatMap(({ weights }) => weights),
});

const chiSquareOf = ({ from, to, weights }: MovedPoints): number => rigidFit(from, to, weights).chiSquare;

/** The axes that the points show a turn about, and χ² with turns about these alone. */
function ownMotion(points: MovedPoints): { axes: readonly Vec3[]; chiSquare: number } {
  const { information } = motionCovariance(points.from, points.weights);
  const axes = axesOver(information, leastInformation);
  return {
    axes,
    chiSquare: axes.length === 3 ? chiSquareOf(points) : restrictedFit(points, axes).chiSquare,
  };
}

/** The eigenvectors of a symmetric matrix whose eigenvalues reach a limit. */
const axesOver = (matrix: Mat3, least: number): Vec3[] =>
  eigenPairs(matrix)
    .filter(({ value }) => value >= least)
    .map(({ vector }) => vector);

/** Under this share an axis is one that the others span already. */
const leastShare = 0.1;

/** Axes at right angles that span the same turns: the eigenvectors of Σ e eᵀ. */
function spanOf(axes: readonly Vec3[]): Vec3[] {
  const sum = (i: 0 | 1 | 2, j: 0 | 1 | 2): number =>
    axes.reduce((total, axis) => total + axis[i] * axis[j], 0);
  const row = (i: 0 | 1 | 2): Vec3 => [sum(i, 0), sum(i, 1), sum(i, 2)];
  return axes.length === 0 ? [] : axesOver([row(0), row(1), row(2)], leastShare);
}

/** The best small motion whose turn is about some axes only. */
function restrictedFit(
  { from, to, weights }: MovedPoints,
  axes: readonly Vec3[],
): { chiSquare: number; turns: number } {
  const centre = weightedMean(from, weights);
  const columns = 3 + axes.length;
  const rows: number[][] = [];
  const values: number[] = [];
  from.forEach((point, i) => {
    const root = Math.sqrt(weights[i]);
    const off = subtract(to[i], point);
    const turned = axes.map((axis) => cross(axis, subtract(point, centre)));
    for (const k of [0, 1, 2] as const) {
      rows.push([...identity[k].map((each) => root * each), ...turned.map((each) => root * each[k])]);
      values.push(root * off[k]);
    }
  });
  const design = new Matrix(rows);
  const value = Matrix.columnVector(values);
  const solution = pseudoInverse(design).mmul(value);
  const left = Matrix.sub(value, design.mmul(solution));
  return { chiSquare: left.dot(left), turns: columns - 3 };
}
