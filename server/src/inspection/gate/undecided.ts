import type { SignOff } from '../../model/job';
import type { DecisionRule } from '../../model/read/settings';
import { type JudgedPoint, judgementsOf } from '../alignment/points';
import { beyond } from '../alignment/verdict';
import type { Newest } from '../job/newest';
import type { Stage } from '../job/stage';
import { isWeak } from '../job/weak';

/** A point of which the measurements cannot say on which side of its limit it lies. */
export interface Undecided {
  readonly newest: Newest;
  readonly why:
    | 'provisional'
    | 'carried'
    | 'unjudged'
    | 'repeats'
    | 'beyond-limit'
    | 'weak-base'
    | 'guarded'
    | 'inside-limit';
  /** Stands against the sign-off until it is accepted with a reason; else it is a warning that the report lists. */
  readonly blocks: boolean;
  /** The reason that the sign-off gives for taking it as it is. */
  readonly accepted: string | null;
}

/** Null where the point is decided. Decision rules `simple` and `guarded` after ISO 14253-1. */
export function undecidedWhy(newest: Newest, rule: DecisionRule, signOff: SignOff | null): Undecided | null {
  const { judged, stage } = newest;
  if (judged.verdict === 'outside' || (judged.verdict === 'within' && !stage.provisional)) return null;
  const why = reason(judged, stage, rule);
  const given = signOff?.accepted.find(({ point, reason }) => point.id === judged.id && reason.trim() !== '');
  return { newest, why, blocks: why !== 'inside-limit', accepted: given?.reason ?? null };
}

function reason(judged: JudgedPoint, stage: Stage, rule: DecisionRule): Undecided['why'] {
  if (stage.provisional) return stage.alignment?.carried?.otherwiseSettled ? 'carried' : 'provisional';
  if (judged.verdict === 'unjudged') return 'unjudged';
  if (judged.contradictory) return 'repeats';
  if (
    judgementsOf(judged).some(
      ({ deviationMm, limits }) => deviationMm !== null && beyond(deviationMm, limits),
    )
  )
    return 'beyond-limit';
  if (isWeak(judged)) return 'weak-base';
  return rule === 'guarded' ? 'guarded' : 'inside-limit';
}
