import type { SignOff } from '../../model/job';
import { isOlder } from '../../model/resolve/judging';
import { carriedPhrase } from '../alignment/carried';
import type { Inspection } from './inspect';
import type { Stage } from './stage';

/** Why the figures of a stage are not to be relied on yet, in a few words; null where they are. */
export function provisionalReason(inspection: Inspection, stage: Stage): string | null {
  if (!stage.provisional) return null;
  const faults = stage.alignment?.faults ?? [];
  if (faults.some((fault) => fault.kind === 'ambiguous'))
    return 'the control points tell more than one story';
  if (faults.some((fault) => fault.kind === 'doubted'))
    return 'what stands around contradicts the control points';
  if (faults.some((fault) => fault.kind === 'inconsistent'))
    return 'the control points contradict each other';
  if (stage.network?.provisional) return 'a control point has moved, and the distances do not tell which';
  const carried = stage.alignment?.carried;
  if (carried && carried.movedTogether.length > 0)
    return `the car or the instrument has moved since “${carried.from}”`;
  if (carried && isCarriedOnly(stage)) return carriedPhrase(carried);
  if (stage.alignment?.provisional)
    return `the control points of “${stage.alignment.inherited}” are not settled`;
  return inspection.heldBack ? 'a file has errors' : 'not settled';
}

/** Whether that counts for a signature: what made a stage provisional only after a job was signed does not undo it. */
export const isProvisionalFor = (
  { provisional, alignment }: Stage,
  signOff: Pick<SignOff, 'judgedBy'> | null,
): boolean =>
  provisional && (signOff === null || !isOlder(signOff.judgedBy, alignment?.provisionalSince ?? '0.1'));

/** All that stands against the stage is that its alignment is older than the work: advice may still go by it, and says so. */
export const isCarriedOnly = ({ alignment, provisional }: Stage): boolean => {
  const carried = alignment?.carried;
  return provisional && !!carried && carried.movedTogether.length === 0 && carried.otherwiseSettled;
};

/** What its figures rest on is not settled, whatever the text is like: nobody is told to move metal by them. */
export const isUnsettled = ({ alignment, network }: Stage): boolean =>
  alignment?.provisional === true || network?.provisional === true;

/** A sentence to close a message with, with its leading space; empty where the stage stands. */
export function provisionalNote(inspection: Inspection, stage: Stage): string {
  const reason = provisionalReason(inspection, stage);
  return reason === null ? '' : ` Provisional: ${reason}.`;
}
