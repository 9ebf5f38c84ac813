import { derived } from '../../memory/derived';
import type { DecisionRule, Settings } from '../../model/read/settings';
import { isHeldTo } from '../../model/resolve/judging';
import type { Inspection } from '../job/inspect';
import { type Newest, newestReleased } from '../job/newest';
import { type OpenDamage, openDamage } from '../job/open-damage';
import { pointsInScope } from '../job/scope';
import { matchesHash } from './chassis-hash';
import { type CurrentSpan, currentSpans, spanName } from './current-spans';
import { type NotJoined, notJoined } from './joins';
import { type Breach, breaches } from './procedure';
import { changedSince } from './seal';
import { type Undecided, type UndecidedSpan, undecidedSpan, undecidedWhy } from './undecided';
import { type Unmeasured, unmeasuredWhy, withoutPoints } from './unmeasured';

/**
 * The gate that a closed job must pass, and what an open one still lacks. It covers dimensions only: not welds, corrosion
 * protection, wheel alignment, restraints or calibrations. Decision rules after ISO 14253-1.
 */
export interface SignOffState {
  readonly closed: boolean;
  /** Nothing stands against it, be it signed yet or not; null where nothing can be concluded because the text is broken. */
  readonly passes: boolean | null;
  readonly rule: DecisionRule;
  /** One line for each thing that stands against a sign-off: `rail-tip-upper.L: outside`. */
  readonly remaining: readonly string[];
  /** The same, each in its two halves. */
  readonly reasons: readonly Reason[];
  /** The text is broken. */
  readonly heldBack: boolean;
  /** Points of the scope whose newest released reading no work has outdated, with it; none of parts that are still being pulled. */
  readonly judged: readonly Newest[];
  readonly outside: readonly Newest[];
  /** Distances outside in a reading that no work has outdated, a point of the scope at one end and none at either that is said to be outside itself. */
  readonly spansOutside: readonly CurrentSpan[];
  readonly unmeasured: readonly Unmeasured[];
  /** Parts of the scope of which the sheet has no point, or that it does not have; '' where the scope is empty. */
  readonly partsWithoutPoints: readonly string[];
  /** Parts that are still being pulled at the end of the timeline; '' for a pull that names none. */
  readonly tension: readonly string[];
  readonly procedure: readonly Breach[];
  /** Damage that was seen and not answered, and new metal that was not joined; none where the signature is older than these questions. */
  readonly openDamage: readonly OpenDamage[];
  readonly notJoined: readonly NotJoined[];
  readonly undecided: readonly Undecided[];
  /** Of the same distances those that are undecided. */
  readonly spansUndecided: readonly UndecidedSpan[];
  /** Names whose entries in the chassis file could not be read: what they would have asked for is not known. */
  readonly unread: readonly string[];
  /** Closed, and the chassis is not the one that was signed against. */
  readonly chassisChanged: boolean;
  /** Closed with seals, and what was judged is not what was signed. */
  readonly readingsChanged: boolean;
}

export const signOffState = (
  inspection: Inspection,
  { decisionRule }: Pick<Settings, 'decisionRule'>,
): SignOffState => stateBy[decisionRule](inspection);

const stateBy: Record<DecisionRule, (inspection: Inspection) => SignOffState> = {
  simple: derived((inspection) => stateOf(inspection, 'simple')),
  guarded: derived((inspection) => stateOf(inspection, 'guarded')),
};

function stateOf(inspection: Inspection, decisionRule: DecisionRule): SignOffState {
  const { job, chassis, work, heldBack } = inspection;
  const tension = [...work.tensionAt(job.timeline.length)];
  const newest = newestReleased(inspection);
  // of what is still being pulled that alone is said
  const inScope = pointsInScope(inspection);
  const released =
    tension.length === 0
      ? inScope
      : inScope.filter((id) => !tension.includes(chassis.points.get(id)?.part ?? '?'));
  const unmeasured: Unmeasured[] = [];
  const judged: Newest[] = [];
  for (const id of released) {
    const reading = newest.get(id);
    const why = unmeasuredWhy(inspection, id, reading);
    if (why !== null) unmeasured.push(why);
    else judged.push(reading!);
  }
  const outside = judged.filter(({ judged: { verdict } }) => verdict === 'outside');
  const spans = spansInScope(inspection, released, outside);
  const facts = {
    heldBack,
    judged,
    outside,
    spansOutside: spans.filter(({ span }) => span.verdict === 'outside'),
    unmeasured,
    partsWithoutPoints: withoutPoints(inspection),
    tension,
    procedure: breaches(inspection).filter(({ severe }) => severe),
    openDamage: isHeldTo('0.2', job) ? openDamage(inspection) : [],
    notJoined: isHeldTo('0.2', job) ? notJoined(inspection) : [],
    undecided: judged.flatMap((each) => undecidedWhy(each, decisionRule, job.signOff) ?? []),
    spansUndecided: spans.flatMap((each) => undecidedSpan(each, decisionRule, job.signOff) ?? []),
    unread: [...chassis.unread.points, ...chassis.unread.parts],
    ...changes(inspection, decisionRule),
  };
  const reasons = heldBack
    ? [
        {
          name: null,
          why: `the ${job.broken ? 'text' : 'chassis file'} has errors: nothing is judged until they are corrected`,
        },
      ]
    : reasonsOf(facts);
  const remaining = [...new Set(reasons.map(({ name, why }) => (name === null ? why : `${name}: ${why}`)))];
  return {
    closed: job.signOff !== null,
    passes: heldBack ? null : remaining.length === 0,
    rule: decisionRule,
    remaining,
    reasons,
    ...facts,
  };
}

/** What is no longer as it was signed: by its seals, or in an older signature by the hash of the chassis files. */
function changes(
  { job, chassis, heldBack }: Inspection,
  rule: DecisionRule,
): Pick<SignOffState, 'chassisChanged' | 'readingsChanged'> {
  const { signOff } = job;
  if (signOff === null) return { chassisChanged: false, readingsChanged: false };
  if (signOff.readings === null)
    return {
      chassisChanged: signOff.chassis === null || !matchesHash(chassis, signOff.chassis),
      readingsChanged: false,
    };
  const changed = heldBack ? [] : changedSince(job, chassis, rule);
  return { chassisChanged: changed.includes('chassis'), readingsChanged: changed.includes('readings') };
}

/**
 * Distances that have a say of their own: the points at their ends are not outside themselves. Older readings of a distance say nothing
 * about the car as it stands: then its points alone decide.
 */
function spansInScope(
  inspection: Inspection,
  released: readonly string[],
  pointsOutside: readonly Newest[],
): readonly CurrentSpan[] {
  const current = currentSpans(inspection);
  if (current.length === 0) return [];
  const scope = new Set(released);
  const outside = new Set(pointsOutside.map(({ judged: { id } }) => id));
  return current.filter(({ span }) => {
    const ends = [span.from, span.to];
    return ends.some((id) => scope.has(id)) && !ends.some((id) => outside.has(id));
  });
}

/** What stands against a sign-off. `name`: of a point, a part, a distance, an entry; null: of the job as a whole. */
export interface Reason {
  readonly name: string | null;
  readonly why: string;
}

type Facts = Omit<SignOffState, 'closed' | 'passes' | 'rule' | 'remaining' | 'reasons'>;

function reasonsOf(facts: Facts): Reason[] {
  const reason = (name: string | null, why: string): Reason => ({ name, why });
  return [
    ...facts.outside.map(({ judged }) => reason(judged.id, 'outside')),
    ...facts.spansOutside.map(({ span }) => reason(spanName(span), 'distance outside')),
    ...facts.unmeasured.map(({ id, why, wasOutside }) =>
      reason(id, unmeasuredWords[why] + (wasOutside ? ', outside when last read' : '')),
    ),
    ...facts.partsWithoutPoints.map((id) =>
      id === '' ? reason(null, 'nothing is in the scope') : reason(id, 'no points to judge it by'),
    ),
    ...facts.tension.map((id) => reason(id === '' ? 'a pull of no named part' : id, 'under tension')),
    ...facts.procedure.map(({ part, kind }) => reason(part.id, `procedure/${kind}`)),
    ...facts.openDamage.map(({ part, seen }) => reason(part.id, `${seen.entry.what} not answered`)),
    ...facts.notJoined.map(({ part, work }) =>
      reason(part.id, `${worksSaid[work.entry.kind]} and not joined`),
    ),
    ...facts.undecided
      .filter(({ blocks, accepted }) => blocks && accepted === null)
      .map(({ newest }) => reason(newest.judged.id, 'undecided')),
    ...facts.spansUndecided
      .filter(({ blocks, accepted }) => blocks && accepted === null)
      .map(({ span }) => reason(spanName(span), 'distance undecided')),
    ...facts.unread.map((name) => reason(name, 'its entry in the chassis file cannot be read')),
    ...(facts.readingsChanged ? [reason(null, 'the job is no longer what was signed')] : []),
    ...(facts.chassisChanged ? [reason(null, chassisIsAnother)] : []),
  ];
}

export const chassisIsAnother = 'the chassis file is no longer the one signed against';

const worksSaid = { section: 'cut', replace: 'replaced' } as const;

export const unmeasuredWords: Record<Unmeasured['why'], string> = {
  never: 'not measured',
  unreachable: 'unreachable, not measured',
  'only-under-load': 'measured under load only',
  outdated: 'not measured since the last work',
  unusable: 'newest reading cannot be used',
};
