import type { Vec3 } from '../../geometry/vector';

/**
 * What the frame of reference of one stage is worked out from (server/README.md, "Witnesses" and "Stories"): plain data in vehicle axes,
 * mm and mm². Deviations are those by the control points' own fit.
 */
export interface FramePoint {
  readonly id: string;
  /** Reference position. */
  readonly place: Vec3;
  /** Measured less reference. */
  readonly off: Vec3;
  /** On each axis: u(reading)² + u(reference)², and for a control point build² besides. */
  readonly variance: number;
  /** Half of the tolerance's band on each axis. */
  readonly half: Vec3;
  /** What both sides have in common. */
  readonly name: string;
  readonly side: 'L' | 'R' | null;
}

/** Measured points that may share an error: those of parts with one name, or all that stands beyond one end of the base. */
export interface WitnessGroup {
  readonly name: string;
  readonly points: readonly FramePoint[];
}

/** How points that are no control points vary among sound cars, mm² on each axis: each by itself (s²), and with its group (g²). */
export interface ElsewhereScatter {
  readonly own: number;
  readonly shared: number;
}

/** Weights are floored as in the base: a perfect reading does not silence all others. */
const smallestVariance = 0.01 ** 2;

/** `build-elsewhere` as it is taken to be shared out: half of its variance to each point, half to its group. */
export function scatterElsewhere(buildElsewhereMm: number): ElsewhereScatter {
  const half = Math.max(buildElsewhereMm ** 2, smallestVariance) / 2;
  return { own: half, shared: half };
}
export const weightFor = (variance: number): number => 1 / Math.max(variance, smallestVariance);
