import type { Vec3 } from '../../geometry/vector';
import type { Axis } from '../../model/chassis';
import type { Side } from '../../model/names';

/**
 * Projections square to the vehicle's axes, forward always to the right of the sheet where it is seen, so that plan and sides stand
 * over each other. A side view shows its own side and the centre plane: left and right of a body cover each other from there.
 */
export type View = 'plan' | 'left' | 'right' | 'front';

export const views: readonly View[] = ['plan', 'left', 'right', 'front'];

interface Projection {
  readonly title: string;
  /** The vehicle axis that counts to the right of the sheet, and the one that counts up it. */
  readonly across: Axis;
  readonly up: Axis;
  /** The side whose points are left out. */
  readonly hidden: Side | null;
}

export const projections: Record<View, Projection> = {
  plan: { title: 'Plan, from above', across: 0, up: 1, hidden: null },
  left: { title: 'Left side, from the centre plane', across: 0, up: 2, hidden: 'R' },
  right: { title: 'Right side, from outside', across: 0, up: 2, hidden: 'L' },
  front: { title: 'Front, from ahead', across: 1, up: 2, hidden: null },
};

export type Px = readonly [x: number, y: number];

/** How a view lies on its sheet: mm of the body to px. */
export interface Frame {
  readonly view: View;
  readonly pxPerMm: number;
  /** Size of the sheet, px. */
  readonly width: number;
  readonly height: number;
  /** The corners of what is drawn to scale, px. */
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  /** mm at the left and at the top of it. */
  readonly leftMm: number;
  readonly topMm: number;
}

export const acrossPx = (frame: Frame, mm: number): number =>
  frame.left + (mm - frame.leftMm) * frame.pxPerMm;
export const upPx = (frame: Frame, mm: number): number => frame.top + (frame.topMm - mm) * frame.pxPerMm;

/** A position in vehicle axes, mm, on the sheet. */
export function projected(frame: Frame, position: Vec3): Px {
  const { across, up } = projections[frame.view];
  return [acrossPx(frame, position[across]), upPx(frame, position[up])];
}
