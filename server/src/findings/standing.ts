import { grouped } from '../inspection/alignment/grouped';
import { type Reason, type SignOffState, signOffState } from '../inspection/gate/sign-off';
import type { Inspection } from '../inspection/job/inspect';
import { isEmptyReason } from '../model/read/empty-reasons';
import type { Settings } from '../model/read/settings';
import { isHeldTo } from '../model/resolve/judging';
import { offsetsOf, type Place } from '../text/tree';
import type { Finding } from './rule/finding';
import { ruleNamed } from './rule-list';
import { emptyReason } from './settings/empty-reason';

/** A job with all that is said of it. */
export interface Told {
  readonly inspection: Inspection;
  readonly settings: Settings;
  readonly findings: readonly Finding[];
}

/**
 * How a job stands, for everyone who says it: summary, record, lists, light bulb and exit status. The gate, and besides it every error that
 * is found in the file and not ignored with a reason: nobody is told that nothing remains while an error stands.
 */
export function standingOf({ inspection, settings, findings }: Told): SignOffState {
  const state = signOffState(inspection, settings);
  if (state.heldBack) return state;
  // a reason that says nothing would no longer count once the job is signed
  const needsWords = isHeldTo(emptyReason.since, inspection.job);
  const isIgnored = ({ ignored }: Finding): boolean =>
    ignored !== null && !(needsWords && isEmptyReason(ignored));
  const errors = findings.filter(
    (finding) => finding.severity === 'error' && !isIgnored(finding) && !isSaid(finding, state),
  );
  if (errors.length === 0) return state;
  const more = [...grouped(errors, ({ rule }) => rule)].map(
    ([name, { length }]): Reason => ({ name, why: `${length} error${length === 1 ? '' : 's'}` }),
  );
  return {
    ...state,
    passes: false,
    reasons: [...state.reasons, ...more],
    remaining: [...state.remaining, ...more.map(({ name, why }) => `${name}: ${why}`)],
  };
}

/** Whether the gate says the same thing already. */
function isSaid({ rule, range }: Finding, state: SignOffState): boolean {
  const inGate = ruleNamed(rule)?.inGate;
  if (inGate === undefined) return false;
  if (inGate === 'always') return true;
  if (inGate !== 'reading') return state.procedure.some(({ kind }) => kind === inGate.breach);
  const blocking = <T extends { blocks: boolean; accepted: string | null }>(list: readonly T[]): T[] =>
    list.filter(({ blocks, accepted }) => blocks && accepted === null);
  const places: Place[] = [
    ...state.outside.map(({ judged }) => judged.reading.key),
    ...state.spansOutside.map(({ span }) => span.reading.place),
    ...blocking(state.undecided).map(({ newest }) => newest.judged.reading.key),
    ...blocking(state.spansUndecided).map(({ span }) => span.reading.place),
  ];
  return places.some((place) => offsetsOf(place).start === range.start);
}
