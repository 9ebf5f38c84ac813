import { planeOf } from '../../geometry/spread';
import { dot, subtract } from '../../geometry/vector';
import type { Inspection } from '../../inspection/job/inspect';
import type { Stage } from '../../inspection/job/stage';
import { unreadControlPoints } from '../../inspection/job/weak';
import { type Axis, axes } from '../../model/chassis';
import { roundedText } from '../../wording/wording';
import type { Rule } from '../rule/rule';
import { faultsOf } from './stage-faults';

export const unchecked: Rule = {
  name: 'base/unchecked',
  severity: 'warning',
  since: '0.1',
  failsCheck: 'closed',
  inRecord: 'stages',
  wholeJob: true,
  page: {
    summary: 'In some direction the control points cannot check each other.',
    why: 'Three control points can hardly contradict each other. Points in one plane do not show it if one of them has moved square to that plane: the fit tilts a little and looks as good as before, and everything that is measured tilts with it.',
    example:
      'base: [floor-front.L, floor-front.R, floor-rear.L]      # three points, nothing left over to check them',
    exampleIn: { place: 'head' },
    mend: 'Read at least a fourth control point, one that stands well above or below the plane of the others.',
    source:
      'Baarda 1968, A testing procedure for use in geodetic networks: an observation that nothing checks can hide an error of any size.',
  },
  ofJob: ({ inspection }) =>
    faultsOf(inspection, 'unchecked').map(({ stage, fault }) => {
      const message =
        fault.why === 'three'
          ? 'three control points cannot check each other: if one has moved a little, nothing shows it, and the figures of this stage move with it.'
          : `the ${stage.alignment?.baseIds.length} control points stand in one plane: if one has moved ${squareTo(stage)}, nothing shows it, and the figures of this stage tilt with it.`;
      return { place: stage.measure.keyPlace, message: message + advice(inspection, stage) };
    }),
};

const basePlane = (stage: Stage) => planeOf(stage.alignment!.base!.members.map((member) => member.reference));

const bothWays: Record<Axis, string> = { 0: 'forward or rearward', 1: 'left or right', 2: 'up or down' };

function squareTo(stage: Stage): string {
  const { normal } = basePlane(stage);
  const axis = axes.reduce((best, k) => (Math.abs(normal[k]) > Math.abs(normal[best]) ? k : best));
  return Math.abs(normal[axis]) > 0.9 ? bothWays[axis] : 'square to it';
}

function advice({ job, chassis }: Inspection, stage: Stage): string {
  const { centroid, normal } = basePlane(stage);
  const off = (reference: readonly [number, number, number]) =>
    Math.abs(dot(normal, subtract(reference, centroid)));
  const unread = unreadControlPoints(job, chassis, stage).sort((a, b) => off(b.reference) - off(a.reference));
  const best = unread.find((point) => off(point.reference) >= 20);
  if (best)
    return ` Read ${best.id} too: it stands ${roundedText(off(best.reference), job.unit)} off their plane.`;
  return job.base.kind === 'ids'
    ? ' Read a control point well off their plane too, and list it under `base`.'
    : ' Read a control point well off their plane too, if the chassis file has one.';
}
