import { rigidFit } from '../../geometry/rigid-motion';
import { preparedReadings } from '../../inspection/alignment/prepared';
import type { Inspection } from '../../inspection/job/inspect';
import type { Stage } from '../../inspection/job/stage';
import { type Axis, axes } from '../../model/chassis';
import type { Direction } from '../../model/job';
import type { Rule } from '../rule/rule';
import { faultsOf } from './stage-faults';

export const mirrored: Rule = {
  name: 'base/mirrored',
  severity: 'error',
  since: '0.1',
  failsCheck: 'closed',
  inRecord: 'stages',
  wholeJob: true,
  page: {
    summary: 'The readings of a stage are a mirror image of the car.',
    why: 'Left was taken for right (standing in front of the car, looking back), or one of the instrument’s numbers counts the other way than `axes` says. Pulls planned on a mirror image go the wrong way, so nothing else about such a stage is judged.',
    example: 'axes: [forward, right, up]      # this instrument counts its second number to the left',
    exampleIn: {
      place: 'head',
      after: `  - measure: as received
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]
      cowl-hole.L: [1480, 612, 905]
      cowl-hole.R: [1480, -612, 905]
      rail-tip-upper.L: [3012, 452, 352]
      strut-top.R: [2250, -561, 830]`,
    },
    mend: 'Correct `axes`, or the sides of the names: left is the left of someone seated facing forward.',
    source:
      'Umeyama 1991, Least-squares estimation of transformation parameters between two point patterns: the sign of the determinant tells a rotation from a reflection.',
  },
  ofJob: ({ inspection }) =>
    faultsOf(inspection, 'mirrored').map(({ stage }) => ({
      place: stage.measure.keyPlace,
      message: `these readings are a mirror image of the car, so nothing about this stage is judged. ${advice(inspection, stage)}`,
    })),
};

const opposite: Record<Exclude<Direction, 'outboard'>, Direction> = {
  forward: 'rearward',
  rearward: 'forward',
  left: 'right',
  right: 'left',
  up: 'down',
  down: 'up',
};

const axisOf: Record<Direction, Axis> = {
  forward: 0,
  rearward: 0,
  left: 1,
  right: 1,
  outboard: 1,
  up: 2,
  down: 2,
};

function advice(inspection: Inspection, stage: Stage): string {
  const { job } = inspection;
  const sides = 'Were left and right taken from in front of the car?';
  if (job.axes.includes('outboard'))
    return `${sides} Or does one of the instrument’s numbers count the other way than \`axes\` says?`;
  const axis = likeliestAxis(inspection, stage);
  const mended = job.axes.map((direction) =>
    axisOf[direction] === axis && direction !== 'outboard' ? opposite[direction] : direction,
  );
  const number = ['first', 'second', 'third'][job.axes.findIndex((direction) => axisOf[direction] === axis)];
  const other = `the instrument counts its ${number} number the other way: \`axes: [${mended.join(', ')}]\``;
  return axis === 1 ? `${sides} Or ${other}.` : `Most likely ${other}. ${sides}`;
}

/** The axis whose turning round leaves the instrument standing most nearly along the car. */
function likeliestAxis({ job, chassis }: Inspection, stage: Stage): Axis {
  const readings = preparedReadings(job, chassis, stage.measure);
  const along = axes.map((axis) => {
    const turned = readings.map(({ measured }) => measured.map((x, k) => (k === axis ? -x : x)));
    const { rotation } = rigidFit(
      turned,
      readings.map(({ point }) => point.reference),
      readings.map(() => 1),
    );
    return rotation[0][0] + rotation[1][1] + rotation[2][2];
  });
  // about equal: left and right are what people confuse
  const best = axes.reduce((most, axis) => (along[axis] > along[most] ? axis : most));
  return along[1] > along[best] - 1e-3 ? 1 : best;
}
