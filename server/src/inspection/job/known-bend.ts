import type { Bend } from '../shape/bend';
import type { Inspection } from './inspect';
import { type PartHistory, renewedBetween, replacedBetween } from './part-history';
import { isUnsettled } from './provisional';
import type { Stage } from './stage';

export type DeclaredBend = Extract<Bend, { kind: 'bend' }>;

export interface KnownBend {
  readonly bend: DeclaredBend;
  readonly stage: Stage;
  /** The base of that stage is not decided: the bend may stand elsewhere. */
  readonly provisional: boolean;
}

/**
 * Where a part was known to be bent when the entry at an index began: by the last released measure that shows a bend. A later measure
 * too short to tell, or one that shows the part pulled straight, does not make that metal straight metal; a replacement, or a cut
 * on the base's side of the bend, does away with it. Null where no bend is known, or the part is bent in more than one place.
 */
export function knownBend(inspection: Inspection, history: PartHistory, index: number): KnownBend | null {
  const { stages } = inspection;
  for (let i = stages.length - 1; i >= 0; i--) {
    const stage = stages[i];
    if (stage.index >= index || stage.underTension) continue;
    if (replacedBetween(history, stage.index, index)) return null;
    const bend = stage.parts.find(({ part }) => part.id === history.part.id)?.bend;
    if (bend?.kind === 'several') return null;
    if (bend?.kind !== 'bend' || renewedBetween(history, bend.atMm, stage.index, index)) continue;
    return { bend, stage, provisional: isUnsettled(stage) };
  }
  return null;
}
