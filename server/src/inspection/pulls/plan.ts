import type { Part } from '../../model/chassis';
import { hasNumbers, type Observe } from '../../model/job';
import { lengthText } from '../../model/units';
import { shortList } from '../../text/lists';
import type { StageDoubt } from '../alignment/displacements';
import { type JudgedPoint, judgementsOf } from '../alignment/points';
import { beyond } from '../alignment/verdict';
import { unusable } from '../frame/alignment';
import { currentSpans, spanName } from '../gate/current-spans';
import { mustNotBeStraightened } from '../gate/procedure';
import { lastWork } from '../gate/unmeasured';
import { offOnBothSides } from '../job/both-sides';
import { impossibleMm, suspiciousMm } from '../job/gross';
import type { Inspection } from '../job/inspect';
import { newestReleased } from '../job/newest';
import { historyOf, type PartHistory, renewedBetween } from '../job/part-history';
import { isCarriedOnly, provisionalReason } from '../job/provisional';
import type { PartInspection, Stage } from '../job/stage';
import { hookFlaws } from './hook-flaws';
import { hookRecoveries } from './hook-recovery';
import { type ObservedPull, observedPulls } from './observed-pulls';
import { type PlannedHold, plannedHold } from './plan-hold';
import { type PlannedHooks, plannedHooks } from './plan-hooks';
import { type NeededMove, neededMoves } from './plan-moves';

/**
 * How to pull a part back (server/README.md, "Pull plan"): advice on geometry alone. Order of pulls, strength, anchoring and
 * chains are the technician's and the maker's procedure's.
 */
export type PullPlan =
  | (PlannedHooks & {
      readonly kind: 'plan';
      readonly part: Part;
      /** The newest released stage that read the part. */
      readonly stage: Stage;
      readonly moves: readonly NeededMove[];
      readonly hold: PlannedHold;
      /** Points of the part that the stage did not read. */
      readonly notRead: readonly string[];
      /** To be read again with the part. */
      readonly controlIds: readonly string[];
      /** Where the job says that the body is held to the bench, as written. */
      readonly anchorIds: readonly string[];
      /** Points so far off that they may have been misread. */
      readonly suspicious: readonly string[];
      /** Tears and cracks seen on it. */
      readonly damage: readonly Observe[];
    })
  /** Outside tolerance, but not to be straightened. */
  | {
      readonly kind: 'rule';
      readonly part: Part;
      readonly stage: Stage;
      readonly moves: readonly NeededMove[];
      /** Where its metal is still straight: what a cut may stand in. */
      readonly hold: PlannedHold;
      readonly why: 'never' | 'press-hardened' | 'kinked';
      readonly kink: Observe | null;
    }
  | {
      readonly kind: 'within';
      readonly part: Part;
      readonly stage: Stage;
      readonly undecided: readonly string[];
    }
  | {
      readonly kind: 'unknown';
      readonly partId: string;
      readonly why: string;
      /** A point over its limit, but not for certain, that the reason is about. */
      readonly over?: JudgedPoint;
    };

export type PlannedPart = Extract<PullPlan, { kind: 'plan' }>;
export type RuledOutPart = Extract<PullPlan, { kind: 'rule' }>;

export function pullPlan(inspection: Inspection, partId: string): PullPlan {
  const { job, chassis, work } = inspection;
  const unknown = (why: string): PullPlan => ({ kind: 'unknown', partId, why });
  const basis = planBasis(inspection, partId);
  if (typeof basis === 'string') return unknown(basis);
  const { part, stage, doubt, motion, moves } = basis;
  const history = historyOf(inspection, part);
  const since = workSince(inspection, moves, stage);
  if (since?.entry.kind === 'replace' || since?.entry.kind === 'section')
    return unknown(`it was renewed after “${stage.name}”: measure it first`);
  const outsideIds = new Set(moves.filter((move) => move.verdict === 'outside').map(({ id }) => id));
  const someOutside = outsideIds.size > 0;
  const off = new Map(moves.map(({ id, moveMm }) => [id, Math.hypot(...moveMm.map((mm) => mm ?? 0))]));
  const alike = moves.find(({ id }) => offAlike(stage, id));
  if (alike)
    return unknown(
      `${alike.id} and its other side are off by as much as each other, over ${lengthText(suspiciousMm, job.unit)}, in “${stage.name}”: look at the sheet first`,
    );
  const misread = moves.find(({ id }) => (off.get(id) ?? 0) > impossibleMm);
  if (misread)
    return unknown(
      `${misread.id} is over ${lengthText(impossibleMm, job.unit)} off in “${stage.name}”: look at that reading first`,
    );
  const hold = () => plannedHold(inspection, history, motion, doubt, outsideIds);
  const rule = someOutside ? ruleAgainst(history) : null;
  if (rule !== null) return { kind: 'rule', part, stage, moves, hold: hold(), ...rule };
  if (work.tensionAt(job.timeline.length).has(partId))
    return unknown('it is under tension: release it and measure, then plan the next pull');
  if (since) return unknown(`it was worked on after “${stage.name}”: measure it first`);
  if (!someOutside && isCarriedOnly(stage))
    return unknown(
      `nothing of it is out ${provisionalReason(inspection, stage)}, which nothing confirms: read control points first`,
    );
  if (!someOutside) return nothingOutside(inspection, part, stage, moves);
  const pulls = pullsSinceRenewed(inspection, history);
  const hooks = plannedHooks(
    part,
    motion,
    moves,
    (chain) => hookRecoveries(inspection, history, pulls, chain),
    hookFlaws(inspection, history, stage),
  );
  if (hooks === null)
    return unknown('no point that is out is known in all three directions: read it in three numbers');
  const own = [...chassis.points.values()].filter((point) => point.part === partId);
  const read = new Set(moves.map(({ id }) => id));
  return {
    kind: 'plan',
    part,
    stage,
    moves,
    ...hooks,
    hold: hold(),
    notRead: own.filter((point) => !read.has(point.id)).map((point) => point.id),
    controlIds: stage.alignment?.baseIds ?? [],
    anchorIds: job.anchors.map(({ id }) => id),
    suspicious: moves.filter(({ id }) => (off.get(id) ?? 0) > suspiciousMm).map(({ id }) => id),
    damage: damageOf(inspection, history),
  };
}

/** What a plan is made from: how the newest readings of a part say that it stands. */
interface PlanBasis {
  readonly part: Part;
  readonly stage: Stage;
  readonly doubt: StageDoubt;
  readonly motion: PartInspection;
  readonly moves: readonly NeededMove[];
}

/** Or why there is none, in words for a person. */
function planBasis(inspection: Inspection, partId: string): PlanBasis | string {
  const part = inspection.chassis.parts.get(partId);
  if (part === undefined) return `the chassis file has no part ${partId}`;
  if (inspection.heldBack) return 'a file has errors: correct them first';
  const stage = newestStageOf(inspection, partId);
  if (stage === undefined) return 'no point of it was read off load: measure it first';
  if (stage.provisional && !isCarriedOnly(stage))
    return `the base of “${stage.name}” is not settled (${provisionalReason(inspection, stage)}): settle it first, every move depends on it`;
  if (unusable(stage.alignment))
    return `the readings of “${stage.name}” cannot be understood: see the findings about its base`;
  const { doubt } = stage;
  const moves = neededMoves(stage, partId);
  const motion = stage.parts.find((each) => each.part.id === partId);
  if (motion === undefined || doubt === null || moves.every((move) => move.verdict === 'unjudged'))
    return `“${stage.name}” cannot be judged: it needs an alignment on control points first`;
  return { part, stage, doubt, motion, moves };
}

const offAlike = ({ points }: Stage, id: string): boolean => {
  const judged = points.find((each) => each.id === id);
  return judged !== undefined && offOnBothSides(judged, points) !== null;
};

/** Read, whether or not anything could be concluded from it: a newer reading that cannot be understood leaves an older one in doubt. */
const newestStageOf = ({ stages, chassis }: Inspection, partId: string): Stage | undefined =>
  stages
    .filter(
      ({ underTension, measure, points }) =>
        !underTension &&
        (points.some(({ point }) => point.part === partId) ||
          measure.readings.some(
            (reading) => hasNumbers(reading) && chassis.points.get(reading.id)?.part === partId,
          )),
    )
    .at(-1);

function nothingOutside(
  inspection: Inspection,
  part: Part,
  stage: Stage,
  moves: readonly NeededMove[],
): PullPlan {
  const newest = newestReleased(inspection);
  const stale = [...newest.values()].filter(
    ({ judged, stage: read }) =>
      judged.point.part === part.id && read !== stage && judged.verdict === 'outside',
  );
  if (stale.length > 0)
    return {
      kind: 'unknown',
      partId: part.id,
      why: `${stale[0].judged.id} was out in “${stale[0].stage.name}” and was not read since: read it again`,
    };
  const doubtful = stage.points.filter(
    ({ point, verdict }) => point.part === part.id && verdict === 'undecided',
  );
  const over = doubtful.find((judged) =>
    judgementsOf(judged).some(
      ({ deviationMm, limits }) => deviationMm !== null && beyond(deviationMm, limits),
    ),
  );
  if (over)
    return {
      kind: 'unknown',
      partId: part.id,
      why: `${over.id} is over its limit, but not for certain`,
      over,
    };
  const spans = currentSpans(inspection).filter(({ span }) =>
    [span.from, span.to].some((id) => inspection.chassis.points.get(id)?.part === part.id),
  );
  const off = spans.filter(({ span }) => span.verdict === 'outside').map(({ span }) => spanName(span));
  if (off.length > 0)
    return {
      kind: 'unknown',
      partId: part.id,
      why: `no point of it is out in “${stage.name}”, but the distance ${shortList(off)} is: read both ends again before anything is pulled`,
    };
  return {
    kind: 'within',
    part,
    stage,
    undecided: [
      ...moves.filter((move) => move.verdict !== 'within').map(({ id }) => id),
      ...spans
        .filter(({ span }) => span.verdict === 'undecided')
        .map(({ span }) => `the distance ${spanName(span)}`),
    ],
  };
}

/** The work on one of the points that is newer than the stage. */
const workSince = (inspection: Inspection, moves: readonly NeededMove[], stage: Stage) =>
  moves.map(({ id }) => lastWork(inspection, id)).find((last) => last !== null && last.index > stage.index);

/** What was seen of metal that is still there. */
function pullsSinceRenewed(inspection: Inspection, { replacements, sections }: PartHistory): ObservedPull[] {
  const renewedAt = Math.max(-1, ...[...replacements, ...sections].map(({ index }) => index));
  return observedPulls(inspection).filter((pull) => pull.index > renewedAt);
}

function ruleAgainst(history: PartHistory): Pick<RuledOutPart, 'why' | 'kink'> | null {
  const { part } = history;
  if (mustNotBeStraightened(part))
    return { why: part.straighten === 'never' ? 'never' : 'press-hardened', kink: null };
  const kink = history.kinks.find(({ entry, index }) => !renewedBetween(history, entry.atMm, index));
  return part.straighten === 'minor' && kink ? { why: 'kinked', kink: kink.entry } : null;
}

function damageOf({ job, chassis }: Inspection, history: PartHistory): Observe[] {
  const { part } = history;
  return job.timeline.flatMap((entry, index) => {
    if (entry.kind !== 'observe' || (entry.what !== 'tear' && entry.what !== 'crack') || entry.part === null)
      return [];
    const about =
      entry.part.id === part.id || (!chassis.parts.has(entry.part.id) && entry.part.id === part.name);
    return about && !renewedBetween(history, entry.atMm, index) ? [entry] : [];
  });
}

/** The parts with a point outside tolerance in its newest released reading, in the chassis' order. */
export function partsToWork(inspection: Inspection): string[] {
  const out = new Set(
    [...newestReleased(inspection).values()].flatMap(({ judged }) =>
      judged.verdict === 'outside' ? (judged.point.part ?? []) : [],
    ),
  );
  return [...inspection.chassis.parts.keys()].filter((id) => out.has(id));
}
