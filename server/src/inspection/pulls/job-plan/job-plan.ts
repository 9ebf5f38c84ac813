import { length } from '../../../geometry/vector';
import type { Point } from '../../../model/chassis';
import type { Observe } from '../../../model/job';
import { markedPoints } from '../../../model/resolve/resolved-job';
import type { Inspection } from '../../job/inspect';
import { historyOf, renewedBetween } from '../../job/part-history';
import { type PlannedPart, type PullPlan, partsToWork, pullPlan } from '../plan';
import { type Brace, bracesFor } from './braces';
import { type PulledTogether, pulledTogether } from './groups';
import { movedMetal } from './moved-metal';
import { isNear, joinedTo, pointsOfPart } from './neighbours';
import { farthestFromBase, inOrder } from './order';
import { outOfScope } from './out-of-scope';
import { type Renewal, renewals } from './renewal';
import { type OpeningSeam, openingSeams } from './seams';
import { bodyHooks, type StepHook } from './step-hooks';

/** One plan for the job (server/README.md, "One plan for the job"): what to pull together and what to renew, in the order of the work. */
export interface JobPlan {
  readonly steps: readonly Step[];
  /** Parts that are out, or may be, of which no step can be planned yet. */
  readonly waiting: readonly Extract<PullPlan, { kind: 'unknown' }>[];
}

export type Step = PullStep | Renewal;

export interface PullStep {
  readonly kind: 'pull';
  /** In the chassis' order. */
  readonly plans: readonly PlannedPart[];
  readonly together: PulledTogether['why'];
  readonly hooks: readonly StepHook[];
  readonly seams: readonly OpeningSeam[];
  readonly braces: readonly Brace[];
  /** Kinks and buckles on its parts, to be relieved under load. */
  readonly buckles: readonly Observe[];
}

export function jobPlan(inspection: Inspection): JobPlan {
  const left = new Set(outOfScope(inspection));
  const ids = partsToWork(inspection).filter((id) => !left.has(id));
  const plans = new Map(ids.map((id) => [id, pullPlan(inspection, id)]));
  const renewed = renewals(inspection, plans);
  const renewedIds = new Set(renewed.map(({ part }) => part.id));
  const metals = [...plans.values()].flatMap((plan) =>
    plan.kind === 'plan' && !renewedIds.has(plan.part.id) ? [movedMetal(plan, inspection.chassis)] : [],
  );
  const pulls = pulledTogether(inspection, metals).map((group) => pullStep(inspection, group));
  const base = baseIds(inspection);
  const ordered = [...pulls, ...renewed].map((step) => ({
    step,
    farMm: farthestFromBase(hurtPoints(step), inspection.chassis, base),
    buckledAt: buckledAt(inspection, step),
    mainAxis: mainAxis(step),
  }));
  return {
    steps: inOrder(ordered).map(({ step }) => step),
    waiting: [...plans.values()].filter(
      (plan): plan is Extract<PullPlan, { kind: 'unknown' }> =>
        plan.kind === 'unknown' && !renewedIds.has(plan.partId),
    ),
  };
}

function pullStep(inspection: Inspection, { bodies, why }: PulledTogether): PullStep {
  const { chassis } = inspection;
  const metals = bodies.flat();
  const ids = [...chassis.parts.keys()];
  const plans = metals
    .map(({ plan }) => plan)
    .sort((a, b) => ids.indexOf(a.part.id) - ids.indexOf(b.part.id));
  const points = pointsOfPart(chassis);
  const joined = joinedTo(inspection);
  const areBeside = (a: PlannedPart, b: PlannedPart): boolean =>
    joined.get(a.part.id)?.has(b.part.id) || isNear(points.get(a.part.id) ?? [], points.get(b.part.id) ?? []);
  const loaded = plans.flatMap(({ part }) => points.get(part.id) ?? []);
  return {
    kind: 'pull',
    plans,
    together: why,
    hooks: bodies
      .flatMap((body) => bodyHooks(body, areBeside))
      .sort((a, b) => length(b.move.moveMm) - length(a.move.moveMm)),
    seams: openingSeams(inspection, metals),
    braces: bracesFor(inspection, loaded),
    buckles: plans.flatMap((plan) => bucklesOn(inspection, plan)),
  };
}

/** Kinks and buckles that are still in the metal. */
function bucklesOn(inspection: Inspection, { part }: Pick<PlannedPart, 'part'>): Observe[] {
  const history = historyOf(inspection, part);
  return history.kinks.flatMap(({ entry, index }) =>
    renewedBetween(history, entry.atMm, index) ? [] : [entry],
  );
}

const partsOf = (step: Step) => (step.kind === 'pull' ? step.plans.map(({ part }) => part) : [step.part]);

const hurtPoints = (step: Step): readonly Point[] =>
  step.kind === 'renew'
    ? step.points
    : step.plans.flatMap(({ moves }) =>
        moves.filter(({ verdict }) => verdict === 'outside').map(({ point }) => point),
      );

const buckledAt = (inspection: Inspection, step: Step): number =>
  Math.max(
    -1,
    ...partsOf(step).flatMap((part) => historyOf(inspection, part).kinks.map(({ index }) => index)),
  );

function mainAxis(step: Step): number {
  if (step.kind === 'renew') return 3;
  const [hook] = step.hooks;
  const sizes = hook.direction.map(Math.abs);
  return sizes.indexOf(Math.max(...sizes));
}

/** The control points that the newest alignment rests on, else those that are marked. */
function baseIds({ stages, chassis }: Inspection): ReadonlySet<string> {
  const ids = stages.findLast(({ alignment }) => (alignment?.baseIds.length ?? 0) > 0)?.alignment?.baseIds;
  return new Set(ids ?? markedPoints(chassis).map(({ id }) => id));
}
