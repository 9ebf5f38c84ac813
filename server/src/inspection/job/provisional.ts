import type { Inspection } from './inspect';
import type { Stage } from './stage';

/** Why the figures of a stage are not to be relied on yet, in a few words; null where they are. */
export function provisionalReason(inspection: Inspection, stage: Stage): string | null {
  if (!stage.provisional) return null;
  const faults = stage.alignment?.faults ?? [];
  if (faults.some((fault) => fault.kind === 'ambiguous')) return 'the control points tell two stories';
  if (faults.some((fault) => fault.kind === 'inconsistent'))
    return 'the control points contradict each other';
  if (stage.alignment?.provisional)
    return `the control points of “${stage.alignment.inherited}” are not settled`;
  return inspection.heldBack ? 'a file has errors' : 'not settled';
}

/** A sentence to close a message with, with its leading space; empty where the stage stands. */
export function provisionalNote(inspection: Inspection, stage: Stage): string {
  const reason = provisionalReason(inspection, stage);
  return reason === null ? '' : ` Provisional: ${reason}.`;
}
