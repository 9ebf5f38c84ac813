import { rigidFit } from '../../geometry/rigid-motion';
import { preparedReadings } from '../../inspection/alignment/prepared';
import { reversedPairs } from '../../inspection/frame/name-pairs';
import { axesOrder } from '../../inspection/job/axes-order';
import type { Inspection } from '../../inspection/job/inspect';
import type { Stage } from '../../inspection/job/stage';
import { type Axis, axes } from '../../model/chassis';
import { fileName } from '../../model/file-name';
import type { Direction } from '../../model/job';
import { axisOf, opposite } from '../../model/sheet-axes';
import { orderText, reversalText } from '../../wording/name-pair-words';
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
    why: 'Left was taken for right (standing in front of the car, looking back), or one number of the instrument or of the sheet counts the other way than its `axes` says. Pulls planned on a mirror image go the wrong way, so nothing else about such a stage is judged.',
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
    mend: 'Correct the `axes` of the readings file (the instrument) or of the chassis file (the sheet), whichever is wrong, or the sides of the names: left is the left of someone seated facing forward. Never turn an instrument’s axis round to make it agree with a sheet that counts the other way: every pull would then be told the wrong way.',
    source:
      'Umeyama 1991, Least-squares estimation of transformation parameters between two point patterns: the sign of the determinant tells a rotation from a reflection.',
  },
  ofJob: ({ inspection }) =>
    faultsOf(inspection, 'mirrored').map(({ stage }) => ({
      place: stage.measure.keyPlace,
      message: `these readings are a mirror image of the car, so nothing about this stage is judged. ${advice(inspection, stage)}`,
    })),
};

/** What each cause would be, and what to write then. Where names of the sheet contradict their positions, that is said alone. */
function advice(inspection: Inspection, stage: Stage): string {
  const { job, chassis } = inspection;
  const first = `Mend ${fileName(chassis.uri)} first, then look here again.`;
  const order = axesOrder(chassis);
  if (order !== null) return `The sheet shows why: ${orderText(order)} ${first}`;
  const reversed = reversedPairs(chassis);
  if (reversed.kind === 'axis') return `The sheet shows why: ${reversalText(reversed, chassis)} ${first}`;
  const { axis, alongAs } = likeliestAxis(inspection, stage);
  const exchangedWords = likeliestOrder(inspection, stage, alongAs);
  if (exchangedWords !== null)
    return `What may be wrong: the instrument's numbers stand in another order: write \`axes: [${exchangedWords.join(', ')}]\` in this file; or left and right were exchanged.`;
  // names that agree with their positions show that the sheet counts this axis as it says
  const isSheetSure = reversed.right.includes(axis);
  const causes = [
    axis === 1 ? exchanged : null,
    causeText('the instrument counts', job.axes, axis, 'in this file'),
    isSheetSure ? null : causeText('the sheet counts', chassis.axes, axis, `in ${fileName(chassis.uri)}`),
    axis === 1 ? null : exchanged,
  ].filter((cause) => cause !== null);
  return `What may be wrong: ${causes.join('; or ')}.`;
}

const exchanged =
  'left and right were exchanged, as seen from in front of the car: exchange .L and .R of the names';

/** The cause, and `axes` with its direction turned round. Where a number counts outboard it has no other way. */
function causeText(who: string, written: readonly Direction[], axis: Axis, where: string): string | null {
  const index = written.findIndex((direction) => axisOf(direction) === axis);
  const direction = written[index];
  if (direction === 'outboard') return null;
  const mended = written.map((each, i) => (i === index ? opposite[direction] : each));
  return `${who} its ${['first', 'second', 'third'][index]} number the other way: write \`axes: [${mended.join(', ')}]\` ${where}`;
}

/** How nearly the instrument stands along the car, if its numbers are read in another way: 3 is exactly. */
function alongness(
  { job, chassis }: Inspection,
  stage: Stage,
  asMeant: (measured: readonly number[]) => number[],
): number {
  const readings = preparedReadings(job, chassis, stage.measure);
  const { rotation } = rigidFit(
    readings.map(({ measured }) => asMeant(measured)),
    readings.map(({ point }) => point.reference),
    readings.map(() => 1),
  );
  return rotation[0][0] + rotation[1][1] + rotation[2][2];
}

/** The axis whose turning round leaves the instrument standing most nearly along the car. */
function likeliestAxis(inspection: Inspection, stage: Stage): { axis: Axis; alongAs: number } {
  const along = axes.map((axis) =>
    alongness(inspection, stage, (measured) => measured.map((x, k) => (k === axis ? -x : x))),
  );
  // about equal: left and right are what people confuse
  const best = axes.reduce((most, axis) => (along[axis] > along[most] ? axis : most));
  const axis = along[1] > along[best] - 1e-3 ? 1 : best;
  return { axis, alongAs: along[axis] };
}

/** Chosen: instruments stand along the car to within some degrees; of the sum of three cosines 1 is a quarter turn. */
const standsAlong = 2.5;

/** Two of the instrument's words exchanged, where that and no turning round makes it stand along the car. `outboard` has its place. */
function likeliestOrder(
  inspection: Inspection,
  stage: Stage,
  turnedAlong: number,
): readonly Direction[] | null {
  const written = inspection.job.axes;
  if (turnedAlong > standsAlong || written.includes('outboard')) return null;
  const pairs = [
    [0, 1],
    [1, 2],
    [0, 2],
  ] as const;
  const found = pairs.find(
    ([a, b]) =>
      alongness(inspection, stage, (measured) =>
        measured.map((x, k) => (k === a ? measured[b] : k === b ? measured[a] : x)),
      ) > standsAlong,
  );
  if (found === undefined) return null;
  return written.map(
    (direction) =>
      written.find((other) => axisOf(other) === exchangedAxis(axisOf(direction), found)) ?? direction,
  );
}

const exchangedAxis = (axis: Axis, [a, b]: readonly [Axis, Axis]): Axis =>
  axis === a ? b : axis === b ? a : axis;
