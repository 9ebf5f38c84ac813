import type { TimelineEntry } from '../../model/job';
import { hasNumbers } from '../../model/job';
import { listPhrase } from '../../text/lists';
import type { AlignmentFault } from '../frame/alignment-fault';
import type { Inspection } from '../job/inspect';
import { provisionalReason } from '../job/provisional';
import type { Stage } from '../job/stage';

/** What moves metal, or lets it move: after it a car is no longer as it came. */
const workKinds: ReadonlySet<TimelineEntry['kind']> = new Set([
  'pull',
  'relieve',
  'release',
  'section',
  'replace',
  'join',
  'heat',
]);

/** Somebody worked on its metal: what counts of it was read before that. */
export const wasWorkedOn = ({ job }: Pick<Inspection, 'job'>): boolean =>
  job.timeline.some(({ kind }) => workKinds.has(kind));

/** The stages of a car as it came, with readings in three numbers. */
export function readBeforeWork({ job, stages }: Inspection): Stage[] {
  const begun = job.timeline.findIndex(({ kind }) => workKinds.has(kind));
  return stages.filter(
    ({ index, measure }) => (begun < 0 || index < begun) && measure.readings.some(hasNumbers),
  );
}

/** What stands against the control points of a stage; null: nothing. */
export function reasonAgainst(inspection: Inspection, stage: Stage): string | null {
  const { alignment } = stage;
  if (alignment === null) return 'it is not aligned';
  for (const fault of alignment.faults) {
    const reason = reasonOf(fault);
    if (reason !== null) return reason;
  }
  if (alignment.movedIds.length > 0) return movedPhrase(alignment.movedIds);
  if (stage.provisional) return provisionalReason(inspection, stage);
  return alignment.frame === null ? 'it is not aligned' : null;
}

const movedPhrase = (ids: readonly string[]): string =>
  ids.length === 1
    ? `the control point ${ids[0]} has moved, or was misread`
    : `the control points ${listPhrase(ids)} have moved, or were misread`;

function reasonOf(fault: AlignmentFault): string | null {
  switch (fault.kind) {
    case 'moved':
      return movedPhrase(fault.ids);
    case 'one-of':
      return `one of the control points ${listPhrase(fault.ids, 'or')} is off`;
    case 'list-contradicts':
      return 'its readings contradict the control points that it lists';
    case 'too-few':
      return `${fault.count === 0 ? 'no' : `only ${fault.count}`} control points were read: three hold a car, four check each other`;
    case 'collinear':
      return 'its control points lie on one line';
    case 'mirrored':
      return 'it was read mirrored';
    case 'scale':
      return 'it was read in another unit than the file says';
    case 'inconsistent':
      return 'its control points contradict each other';
    case 'ambiguous':
      return 'its control points tell more than one story of what has moved';
    case 'doubted':
      return 'what stands around contradicts its control points';
    // of these the stage itself says whether it is provisional
    case 'carried':
    case 'unchecked':
      return null;
  }
}
