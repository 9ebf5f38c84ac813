import type { SignOff } from '../../model/job';
import { isEmptyReason } from '../../model/read/empty-reasons';
import type { DecisionRule } from '../../model/read/settings';
import { isOlder } from '../../model/resolve/judging';
import { type JudgedPoint, judgementsOf } from '../alignment/points';
import { beyond } from '../alignment/verdict';
import type { Newest } from '../job/newest';
import { isProvisionalFor } from '../job/provisional';
import type { Stage } from '../job/stage';
import { isWeak } from '../job/weak';
import type { CurrentSpan } from './current-spans';

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
  const isProvisional = isProvisionalFor(stage, signOff);
  if (judged.verdict === 'outside' || (judged.verdict === 'within' && !isProvisional)) return null;
  const why = isProvisional ? provisionalWhy(stage) : reason(judged, rule);
  const given = signOff?.accepted.find(
    ({ point, reason }) => point.id === judged.id && tells(reason, signOff),
  );
  return { newest, why, blocks: why !== 'inside-limit', accepted: given?.reason ?? null };
}

/** A reason that says nothing is as none; in a job that was signed before that was asked, it is left. */
const tells = (reason: string, { judgedBy }: SignOff): boolean =>
  reason.trim() !== '' && (isOlder(judgedBy, '0.2') || !isEmptyReason(reason));

const provisionalWhy = ({ alignment }: Stage): Undecided['why'] =>
  alignment?.carried?.otherwiseSettled ? 'carried' : 'provisional';

function reason(judged: JudgedPoint, rule: DecisionRule): Undecided['why'] {
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

/** A distance of which the measurements cannot say on which side of its limit it lies. */
export interface UndecidedSpan extends CurrentSpan {
  readonly why: 'beyond-limit' | 'guarded' | 'inside-limit';
  readonly blocks: boolean;
  /** The reason that the sign-off gives for taking one of its ends as it is. */
  readonly accepted: string | null;
}

/** Null where the distance is decided. The rules are those for a point. */
export function undecidedSpan(
  current: CurrentSpan,
  rule: DecisionRule,
  signOff: SignOff | null,
): UndecidedSpan | null {
  const { span } = current;
  if (span.verdict !== 'undecided') return null;
  const inside = rule === 'guarded' ? 'guarded' : 'inside-limit';
  const why = beyond(span.deviationMm, span.limits) ? 'beyond-limit' : inside;
  const given = signOff?.accepted.find(
    ({ point, reason }) => (point.id === span.from || point.id === span.to) && tells(reason, signOff),
  );
  return { ...current, why, blocks: why !== 'inside-limit', accepted: given?.reason ?? null };
}
