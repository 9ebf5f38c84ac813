import type { AlignmentFault } from '../../inspection/frame/alignment-fault';
import type { Inspection } from '../../inspection/job/inspect';
import type { Stage } from '../../inspection/job/stage';
import { derived } from '../../memory/derived';

type Kind = AlignmentFault['kind'];
type FaultOf<K extends Kind> = Extract<AlignmentFault, { kind: K }>;

/** The stages whose alignment has a fault of a kind, each with that fault; no alignment has two of a kind. */
export const faultsOf = <K extends Kind>(
  inspection: Inspection,
  kind: K,
): { readonly stage: Stage; readonly fault: FaultOf<K> }[] =>
  allFaults(inspection).filter(
    (found): found is { stage: Stage; fault: FaultOf<K> } => found.fault.kind === kind,
  );

const allFaults = derived(({ stages }: Inspection) =>
  stages.flatMap((stage) => stage.alignment?.faults.map((fault) => ({ stage, fault })) ?? []),
);
