import { inverse, Matrix } from 'ml-matrix';
import { anglesOf, rotationFromAngles } from './euler';
import { motionCovariance } from './motion-covariance';
import { nonLinearLeastSquares } from './non-linear-least-squares';
import { similarityOf } from './rigid-motion';
import { cross, dot, identity, type Mat3, scaled, subtract, transformed, type Vec3 } from './vector';

/** How a set of points moved as one body, about its weighted mean. */
interface BodyMotion {
  /** weighted mean of the reference positions */
  centroid: Vec3;
  /** of the centroid, in the unit of the points */
  shift: Vec3;
  /** z-y-x angles in rad (`rotationFromAngles`); null where the points do not fix the angle */
  yaw: number | null;
  pitch: number | null;
  twist: number | null;
  /** of (twist, pitch, yaw) about x, y, z from the points alone, rad²; rows of null angles are 0 and say nothing */
  rotationCovariance: Mat3;
  /** Σw: I/Σw is the shift's covariance from the points alone */
  weightSum: number;
  /** √(Σw|e|²/Σw) about the best rigid motion, whether or not its angles can be told; null for one point */
  residualRms: number | null;
}

/** Share of an axis that nothing turns about (unit vector) above which the angle about a coordinate axis is unknown. */
const mixedIn = 0.1;

/**
 * The rigid motion of a body from points on it (Söderkvist & Wedin 1993), with what the points cannot tell left null:
 * for each axis v that they leave free, every coordinate axis k with |v_k| > 0.1; the other angles are the best with those
 * at 0.
 *
 * @param from n reference positions; @param to n positions now; @param weights n, 1/u²
 * @throws RangeError for lists of different lengths, no points, non-finite values, or no weight above 0
 */
export function bodyMotion(
  from: readonly Vec3[],
  to: readonly Vec3[],
  weights: readonly number[],
): BodyMotion {
  const fit = similarityOf(from, to, weights);
  const best = fit.rotation;
  const reached = fit.toMean;
  const { centroid, information, rotation, unobservable } = motionCovariance(from, weights);
  const known = knownAngles(unobservable);
  const all = known.length === 3;
  const angles = all
    ? anglesOf(best)
    : anglesAbout(known, centred(from, centroid), centred(to, reached), weights);
  let weightSum = 0;
  let squares = 0;
  for (let i = 0; i < from.length; i++) {
    const residual = subtract(transformed(best, subtract(from[i], centroid)), subtract(to[i], reached));
    weightSum += weights[i];
    squares += weights[i] * dot(residual, residual);
  }
  return {
    centroid,
    shift: subtract(reached, centroid),
    yaw: known.includes(2) ? angles.yaw : null,
    pitch: known.includes(1) ? angles.pitch : null,
    twist: known.includes(0) ? angles.twist : null,
    rotationCovariance: all ? rotation : restrictedInverse(information, known),
    weightSum,
    residualRms: from.length > 1 ? Math.sqrt(squares / weightSum) : null,
  };
}

/** 0 twist, 1 pitch, 2 yaw: those that no free turn has a share in. */
function knownAngles(unobservable: readonly Vec3[]): readonly number[] {
  if (unobservable.length === 0) return everyAngle;
  return everyAngle.filter((k) => unobservable.every((axis) => Math.abs(axis[k]) <= mixedIn));
}

const everyAngle: readonly number[] = [0, 1, 2];

const centred = (points: readonly Vec3[], centre: Vec3): Vec3[] =>
  points.map((point) => subtract(point, centre));

/** The best angles among those that are known (0 twist, 1 pitch, 2 yaw), the others held at 0. */
function anglesAbout(
  known: readonly number[],
  from: readonly Vec3[],
  to: readonly Vec3[],
  weights: readonly number[],
): { twist: number; pitch: number; yaw: number } {
  const anglesFrom = (x: readonly number[]) => {
    const all = [0, 0, 0];
    known.forEach((k, i) => {
      all[k] = x[i];
    });
    return { twist: all[0], pitch: all[1], yaw: all[2] };
  };
  if (known.length === 0) return anglesFrom([]);
  const roots = weights.map(Math.sqrt);
  const { solution } = nonLinearLeastSquares({
    start: known.map(() => 0),
    residuals: (x) => {
      const rotation = rotationFromAngles(anglesFrom(x));
      return from.flatMap((point, i) => scaled(subtract(transformed(rotation, point), to[i]), roots[i]));
    },
    jacobian: (x) => {
      const angles = anglesFrom(x);
      const rotation = rotationFromAngles(angles);
      // What each angle turns about, the later ones carried along by the earlier.
      const axes = [
        transformed(rotation, identity[0]),
        transformed(rotationFromAngles({ ...angles, twist: 0, pitch: 0 }), identity[1]),
        identity[2],
      ];
      return from.flatMap((point, i) => {
        const turned = transformed(rotation, point);
        const columns = known.map((k) => scaled(cross(axes[k], turned), roots[i]));
        return [0, 1, 2].map((row) => columns.map((column) => column[row]));
      });
    },
  });
  return anglesFrom(solution);
}

/** The inverse of the known rows and columns, 0 elsewhere. */
function restrictedInverse(information: Mat3, known: readonly number[]): Mat3 {
  const result: [number, number, number][] = [
    [0, 0, 0],
    [0, 0, 0],
    [0, 0, 0],
  ];
  if (known.length > 0) {
    const part = inverse(new Matrix(known.map((row) => known.map((column) => information[row][column]))));
    known.forEach((row, i) => {
      known.forEach((column, j) => {
        result[row][column] = part.get(i, j);
      });
    });
  }
  const [x, y, z] = result;
  return [x, y, z];
}
