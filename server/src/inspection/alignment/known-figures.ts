import { coverage95 } from './verdict';

/**
 * What is known too badly to be a figure (server/README.md, "Deviation and verdict"): it is not known, and never printed.
 * Both limits are chosen: past them a figure says no more than that something was read.
 */

/** Largest ± of an angle at 95 %, rad. */
const mostAngleRad = Math.PI / 4;
/** Largest ± of a length at 95 %, mm. */
const mostLengthMm = 1000;

export const isKnownAngle = (angleRad: number, uncertaintyRad: number): boolean =>
  Number.isFinite(angleRad) && coverage95 * uncertaintyRad <= mostAngleRad;

export const isKnownLength = (mm: number, uncertaintyMm: number): boolean =>
  Number.isFinite(mm) && coverage95 * uncertaintyMm <= mostLengthMm;
