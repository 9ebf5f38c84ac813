import type { Inspection } from '../../inspection/job/inspect';
import { withoutSides } from '../../inspection/job/scope';
import type { Stage } from '../../inspection/job/stage';
import { unreadControlPoints } from '../../inspection/job/weak';
import { hasNumbers } from '../../model/job';
import { listPhrase, shortList } from '../../wording/wording';
import type { Rule } from '../rule/rule';
import { faultsOf } from './stage-faults';

export const tooFew: Rule = {
  name: 'base/too-few',
  severity: 'error',
  since: '0.1',
  failsCheck: 'closed',
  inRecord: 'stages',
  wholeJob: true,
  page: {
    summary:
      'A stage reads fewer than three control points, so nothing it measured can be placed on the car.',
    why: 'The bench and the car do not share a zero. Three control points on sound metal, not on one line, are the least that is needed to fix where the car stands on the bench; with two it may still roll about the line between them. A stage that reads none uses the alignment of the stage before, if nothing was moved in between; after a pull that is provisional (`base/carried`).',
    example:
      '  - measure: after first pull\n    readings:\n      floor-front.L:    [1200.3, 420.2, 95.1]     # one control point only\n      rail-tip-lower.L: [3000.2, 446.0, 210.6]',
    exampleIn: { place: 'entry' },
    mend: 'Read at least three control points, better six, in every stage in which the car or the instrument may have moved. If nothing was moved since the stage before, write `set-up: same` on the measure.',
    source:
      'Horn 1987, Closed-form solution of absolute orientation using unit quaternions: three points not on a line determine a rigid motion.',
  },
  ofJob: ({ inspection }) =>
    faultsOf(inspection, 'too-few').map(({ stage, fault }) => {
      const message = `${countPhrase(stage)}; three are needed that do not stand on one line.${advice(inspection, stage, fault)}`;
      return { place: stage.measure.keyPlace, message };
    }),
};

function countPhrase({ alignment }: Stage): string {
  const ids = alignment?.baseIds ?? [];
  if (ids.length === 0)
    return 'no control point was read in this stage, and there is no earlier alignment to take over';
  return `only ${ids.length === 1 ? 'one control point was' : 'two control points were'} read in this stage (${listPhrase(ids)})`;
}

function advice(
  { job, chassis }: Inspection,
  stage: Stage,
  { count, setUpNew }: { count: number; setUpNew: boolean },
): string {
  const hints: string[] = [];
  if (setUpNew) hints.push(' With `set-up: new` the stage before cannot help.');
  else if (count > 0) hints.push(' If nothing was moved since the stage before, write `set-up: same` here.');
  const passedOver = stage.measure.readings.filter(
    (reading) =>
      hasNumbers(reading) &&
      chassis.points.get(reading.id)?.base &&
      !stage.alignment?.baseIds.includes(reading.id),
  );
  if (passedOver.length > 0 && job.base.kind !== 'auto')
    hints.push(
      ` ${shortList(passedOver.map(({ id }) => id))} ${passedOver.length === 1 ? 'was' : 'were'} read too, but \`base:\` leaves ${passedOver.length === 1 ? 'it' : 'them'} out.`,
    );
  const unread = withoutSides(unreadControlPoints(job, chassis, stage).map((point) => point.id));
  if (unread.length > 0) hints.push(` Control points still to read: ${shortList(unread, 6)}.`);
  return hints.join('');
}
