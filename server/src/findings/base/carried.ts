import type { Carried } from '../../inspection/alignment/carried';
import type { Inspection } from '../../inspection/job/inspect';
import { withoutSides } from '../../inspection/job/scope';
import type { Stage } from '../../inspection/job/stage';
import { unreadControlPoints } from '../../inspection/job/weak';
import { listPhrase, movesPhrase, shortList } from '../../wording/wording';
import type { Rule } from '../rule/rule';
import { faultsOf } from './stage-faults';

export const carried: Rule = {
  name: 'base/carried',
  severity: 'warning',
  since: '0.2',
  failsCheck: 'closed',
  inRecord: 'stages',
  wholeJob: true,
  page: {
    summary:
      'A stage is judged by an alignment from before work on the car, and nothing confirms that the car did not move.',
    why: 'Chains slide a car on the bench, and a release lets it slide back, by millimetres that nobody sees. A stage without control points of its own is judged by where the car stood before: a part that is out can then look within, and a sound one out. Its figures are provisional, and a job cannot be signed off on them. Under load that is allowed, because peaks are not results. `set-up: same` says what you meant; it does not show that the car stayed in place. Where two or more control points of a stage with `set-up: same` are off together, the car or the instrument has moved.',
    example:
      '  - pull: left at rail-tip-upper.L\n    part: front-rail.L\n  - release: all\n  - measure: after release\n    set-up: same\n    readings: { rail-tip-upper.L: [3012.3, 449.2, 352.1] }      # no control point was read',
    exampleIn: {
      place: 'entry',
      before: `  - measure: as received
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]
      cowl-hole.L: [1480, 612, 905]
      cowl-hole.R: [1480, -612, 905]
      rail-tip-upper.L: [3012, 432, 352]`,
    },
    mend: 'Read at least three control points in the first stage after a release. Or read two points again, at least 500 mm apart, on parts that were not worked on (with `set-up: same`, control points). If they have not moved by more than three standard uncertainties, the alignment counts as confirmed.',
    source:
      'Common practice in the trade: the body is measured again on its control points after every pull. The limits are the project’s own.',
  },
  ofJob: ({ inspection }) =>
    faultsOf(inspection, 'carried').map(({ stage, fault }) => ({
      place: stage.measure.keyPlace,
      message: messageOf(inspection, stage, fault.carried),
      related: stage.measure.readings
        .filter(({ id }) => isNamed(fault.carried, id))
        .map(({ id, key }) => ({ place: key, message: `${id} was read here` })),
    })),
};

const isNamed = ({ movedTogether, disagreeing }: Carried, id: string): boolean =>
  movedTogether.some((each) => each.id === id) || disagreeing.includes(id);

function messageOf(inspection: Inspection, stage: Stage, found: Carried): string {
  const unread = withoutSides(
    unreadControlPoints(inspection.job, inspection.chassis, stage).map(({ id }) => id),
  );
  const read = `Read at least three control points${unread.length === 0 ? '' : `, such as ${shortList(unread, 4)}`}`;
  if (found.movedTogether.length > 0) return `${movedText(inspection, found)} ${read}.`;
  const what = found.across === 'pull' ? 'a pull or its release' : 'work on the car';
  return `this stage has no alignment of its own and uses that of “${found.from}”, from before ${what}: the car may have moved on the bench, so its figures are provisional. ${witnessText(found)}${read}, or two points at least 500 mm apart on parts that were not worked on.`;
}

function movedText({ job, chassis }: Inspection, { movedTogether, from }: Carried): string {
  const listed = movedTogether.map(
    ({ id, offMm }) => `${id} ${movesPhrase(offMm, chassis.points.get(id)?.side ?? null, job.unit)}`,
  );
  return `the car or the instrument has moved since “${from}”: control points have moved together (${shortList(listed, 4)}), and the distances between them are unchanged. So the metal did not move there: do not rely on any figure of this stage.`;
}

function witnessText({ agreeing, disagreeing }: Carried): string {
  if (disagreeing.length > 0)
    return `${listPhrase(disagreeing.slice(0, 4))} ${disagreeing.length === 1 ? 'is not where it was' : 'are not where they were'} before the work, though nothing was done there. `;
  if (agreeing.length > 0)
    return `${listPhrase(agreeing.slice(0, 4))} alone ${agreeing.length === 1 ? 'does' : 'do'} not show that it stayed. `;
  return '';
}
