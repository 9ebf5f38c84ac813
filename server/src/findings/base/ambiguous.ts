import type { Inspection } from '../../inspection/job/inspect';
import type { Stage } from '../../inspection/job/stage';
import { decidingPoint, type Story, storiesOf } from '../../inspection/job/two-stories';
import { lengthOf, signedBand } from '../../model/sheet-axes';
import { mmPer, type Unit } from '../../model/units';
import { floorPhrase } from '../../wording/story-words';
import { shortList } from '../../wording/wording';
import type { Rule } from '../rule/rule';
import { faultsOf } from './stage-faults';

export const ambiguous: Rule = {
  name: 'base/ambiguous',
  severity: 'error',
  since: '0.1',
  failsCheck: 'closed',
  inRecord: 'stages',
  wholeJob: true,
  unchangeable: true,
  page: {
    summary:
      'The control points can be divided into moved and sound ones in more than one way, and the verdicts depend on which way is right.',
    why: 'Where a car was hit hard, the control points fall into two bodies that agree within themselves and not with each other: those that moved and those that did not. The figures alone cannot tell which is which; the technician knows which end was hit. Choosing wrongly puts the damage at the sound end. Until it is decided the stage is provisional, and a job cannot be signed off on it.',
    example: `  - measure: as received
    readings:      # the front three agree, and so do the rear three
      floor-front.L: [1200, 432, 100]
      floor-front.R: [1200, -408, 100]
      cowl-hole.L: [1480, 624, 910]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]
      rear-floor.L: [-1050, 388, 296]
      rail-tip-lower.L: [3012, 460, 215]`,
    exampleIn: { place: 'entry' },
    mend: 'Say which zone is undamaged, `base: { between: [-800, 1300] }`, or list the sound control points, or read more of them.',
    source: 'Fischler & Bolles 1981, Random sample consensus.',
  },
  ofJob: ({ inspection }) =>
    faultsOf(inspection, 'ambiguous').map(({ stage, fault }) => ({
      since: fault.since,
      place: stage.measure.keyPlace,
      message: messageOf(inspection, stage),
      related: relatedOf(stage),
    })),
};

const letters = 'ABCDEFGH';
/** More stories than a person compares. */
const mostStories = 4;
const fewestOfBase = 3;

function messageOf(inspection: Inspection, stage: Stage): string {
  const stories = storiesOf(inspection, stage);
  const told = stories
    .slice(0, mostStories)
    .map((story, i) => `${letters[i]}: ${storyPhrase(story, inspection)}`);
  const rest = stories.length - told.length;
  const deciding = decidingPoint(inspection, stage);
  const next = deciding
    ? ` Or read ${deciding.id} too: it would show which is true.`
    : ' Or read more control points away from the damage.';
  // nothing is left of the base in a story where all of it moved
  if (stories.length === 1)
    return `what stands around the control points contradicts them, and all figures of this stage are provisional.${next}`;
  return `the control points tell ${stories.length === 2 ? 'two stories' : `${stories.length} stories`} that fit equally well, and all figures of this stage are provisional (A is used). ${told.join('; ')}${rest > 0 ? `; and ${rest} more` : ''}.${next}`;
}

function storyPhrase({ base, moved, hit, zone, told }: Story, { job, chassis }: Inspection): string {
  const { unit } = job;
  // such a base would be refused
  const isEnough = base.length >= fewestOfBase;
  const setting = zone
    ? `base: { between: [${signedBand(lengthOf(chassis).sheetSign, zone)
        .map((mm) => zoneFigure(mm, unit))
        .join(', ')}] }`
    : `base: [${base.join(', ')}]`;
  const floor = told === null ? null : floorPhrase(told, chassis, unit);
  const movedPhrase =
    moved.length === 0
      ? 'nothing moved'
      : `${floor === null ? '' : `${floor}, so that `}${shortList(moved, 6)} moved`;
  if (!isEnough) return `${movedPhrase}, which leaves too few to align on`;
  return `${movedPhrase}, if ${hit ? `the ${hit} was hit` : 'that is so'} write \`${setting}\``;
}

/** Outward to the inch or the ten millimetres, as the zone was. */
const zoneFigure = (mm: number, unit: Unit): string =>
  unit === 'mm' ? String(mm) : String(Math.round((mm / mmPer.inch) * 100) / 100);

function relatedOf(stage: Stage) {
  const { baseIds = [], movedIds = [] } = stage.alignment ?? {};
  const inStory = new Map([
    ...baseIds.map((id) => [id, 'in the base of story A'] as const),
    ...movedIds.map((id) => [id, 'moved in story A'] as const),
  ]);
  return stage.measure.readings.flatMap(({ id, key }) => {
    const message = inStory.get(id);
    return message === undefined ? [] : [{ place: key, message: `${id}: ${message}` }];
  });
}
