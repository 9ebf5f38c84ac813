import { motionDistance } from '../../../server/src/geometry/motion-agreement';
import { add, cross, dot, length, scaled, subtract, type Vec3 } from '../../../server/src/geometry/vector';
import { pulledTogether } from '../../../server/src/inspection/pulls/job-plan/groups';
import { jobPlan, type PullStep, type Step } from '../../../server/src/inspection/pulls/job-plan/job-plan';
import { type MovedMetal, movedMetal } from '../../../server/src/inspection/pulls/job-plan/moved-metal';
import { isNear, pointsOfPart } from '../../../server/src/inspection/pulls/job-plan/neighbours';
import type { StepHook } from '../../../server/src/inspection/pulls/job-plan/step-hooks';
import { holdPlaces } from '../../../server/src/inspection/pulls/plan-hold';
import { axes, type Part, type Point } from '../../../server/src/model/chassis';
import { hookText } from '../../../server/src/wording/job-plan/hook-words';
import type { Tally } from '../tally';
import type { PlanDamage } from './damage';
import type { PlanJob } from './job';
import { toleranceMm, world } from './world';

/** From this remaining move on a step is held to its direction, mm. */
const judgedFromMm = 6;
const withinDegrees = 15;

/** Counts what a plan says against what is true of its car. */
export function judgePlan({ damage, truth, inspection }: PlanJob, tally: Tally): void {
  const plan = jobPlan(inspection);
  const pulls = plan.steps.filter((step): step is PullStep => step.kind === 'pull');
  tally.count(['planned'], plan.waiting.length === 0);
  for (const step of pulls) {
    for (const hook of step.hooks) directionOf(damage, truth, hook, tally);
    for (const hook of step.hooks) wordsOf(damage, hook, tally);
    coupleOf(damage, step, tally);
    for (const { part, hold } of step.plans)
      for (const { atMm, towards } of holdPlaces(hold)) {
        const bend = damage.bends.get(part.id);
        if (bend !== undefined)
          tally.count(
            ['hold on the base’s side'],
            bend.away * (atMm - bend.startMm) <= 0 && towards === -bend.away,
          );
        tally.count(['hold away from damage'], isAwayFrom(damage, part, atMm, towards));
      }
  }
  soundParts(truth, plan.steps, tally);
  groupsOf(damage, inspection, pulls, tally);
}

/** Chain against what is left to go at its hook: of the motion, and with the scatter that this one point was built with. */
function directionOf(damage: PlanDamage, truth: PlanJob['truth'], hook: StepHook, tally: Tally): void {
  if (hook.holdsBack) return;
  const home = scaled(damage.field(hook.move.point), -1);
  if (length(home) >= judgedFromMm)
    tally.count(['direction'], degreesBetween(hook.direction, home) <= withinDegrees);
  const own = scaled(truth.get(hook.move.id)!, -1);
  if (length(own) >= judgedFromMm)
    tally.count(['direction, with scatter'], degreesBetween(hook.direction, own) <= withinDegrees);
}

const ways: Readonly<Record<string, Vec3>> = {
  forward: [1, 0, 0],
  rearward: [-1, 0, 0],
  left: [0, 1, 0],
  right: [0, -1, 0],
  up: [0, 0, 1],
  down: [0, 0, -1],
};

/** No word of the hook's line names a way that truly leads farther from home, by a millimetre or more. */
function wordsOf(damage: PlanDamage, hook: StepHook, tally: Tally): void {
  if (hook.holdsBack) return;
  const home = scaled(damage.field(hook.move.point), -1);
  if (length(home) < judgedFromMm) return;
  const [words] = hookText(hook)
    .replace(/^\S+: /, '')
    .split(';');
  const named = Object.keys(ways).filter((way) => new RegExp(`\\b${way}\\b`).test(words));
  tally.count(['words'], named.length > 0 && named.every((way) => dot(ways[way], home) > -1));
}

const degreesBetween = (a: Vec3, b: Vec3): number =>
  (Math.acos(Math.min(1, Math.max(-1, dot(a, b) / length(a) / length(b)))) * 180) / Math.PI;

/** Two chains on one twisted part turn it back. */
function coupleOf(damage: PlanDamage, { hooks }: PullStep, tally: Tally): void {
  for (const [part, sign] of damage.twists) {
    const [one, other] = hooks.filter(({ plan }) => plan.part.id === part);
    if (one === undefined || other === undefined) continue;
    const arm = subtract(one.move.point.reference, other.move.point.reference);
    const turn = cross(arm, subtract(one.direction, other.direction));
    tally.count(['couple'], turn[0] * sign < 0);
  }
}

function isAwayFrom(damage: PlanDamage, { id, along }: Part, atMm: number, towards: 1 | -1): boolean {
  const hurt = (pointsOfPart(world).get(id) ?? []).filter(
    (point) => length(damage.field(point)) > toleranceMm,
  );
  return hurt.every(({ reference }) => towards * (reference[along] - atMm) < 0);
}

const partsOf = (step: Step): string[] =>
  step.kind === 'pull' ? step.plans.map(({ part }) => part.id) : [step.part.id];

function soundParts(truth: PlanJob['truth'], steps: readonly Step[], tally: Tally): void {
  const planned = new Set(steps.flatMap(partsOf));
  for (const [id, points] of pointsOfPart(world)) {
    const isSound = points.every((point: Point) =>
      axes.every((k) => {
        const off = truth.get(point.id)![k];
        return off >= point.limits[k][0] && off <= point.limits[k][1];
      }),
    );
    if (isSound) tally.count(['step for a sound part'], planned.has(id));
  }
}

function groupsOf(
  damage: PlanDamage,
  inspection: PlanJob['inspection'],
  pulls: readonly PullStep[],
  tally: Tally,
): void {
  const stepOf = new Map(pulls.flatMap((step) => partsOf(step).map((id) => [id, step] as const)));
  for (const body of damage.bodies) {
    const planned = [...body].filter((id) => stepOf.has(id));
    if (planned.length > 1)
      tally.count(['one motion in one step'], new Set(planned.map((id) => stepOf.get(id))).size === 1);
  }
  const metals = pulls.flatMap(({ plans }) => plans.map((plan) => movedMetal(plan, world)));
  const bodies = pulledTogether(inspection, metals).flatMap((group) => group.bodies);
  const points = pointsOfPart(world);
  for (const [i, a] of metals.entries())
    for (const b of metals.slice(i + 1)) {
      if (!isNear(points.get(a.plan.part.id) ?? [], points.get(b.plan.part.id) ?? [])) continue;
      if (!differ(damage, a, b)) continue;
      const isOneBody = bodies.some((body) => body.includes(a) && body.includes(b));
      const isOneStep = stepOf.get(a.plan.part.id) === stepOf.get(b.plan.part.id);
      tally.count(['other motions joined'], isOneBody);
      tally.count(['one step for a seam'], isOneStep && !isOneBody);
    }
}

/** By more than four standard uncertainties: of what truly moved, by the covariance of the plan. */
function differ(damage: PlanDamage, a: MovedMetal, b: MovedMetal): boolean {
  const truly = ({ points, moved }: MovedMetal) => ({
    ...moved,
    to: points.map((point) => add(point.reference, damage.field(point))),
  });
  return motionDistance(truly(a), truly(b)).squared > 16;
}
