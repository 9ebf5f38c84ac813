import { chiSquareQuantile } from '../../../geometry/distributions';
import { joinedPoints, type MovedPoints, motionDistance } from '../../../geometry/motion-agreement';
import { movedVector, rigidFit } from '../../../geometry/rigid-motion';
import { dot, length, subtract, type Vec3 } from '../../../geometry/vector';
import { roundedDirection, unitVector } from '../direction';
import type { PlannedPart } from '../plan';
import type { PlannedHook } from '../plan-hooks';
import type { MovedMetal } from './moved-metal';

/** A chain of a step. */
export interface StepHook extends PlannedHook {
  readonly plan: PlannedPart;
}

/** Chains that pull within this of the same way, on parts side by side, are one. Chosen. */
const sameWay = Math.cos((15 * Math.PI) / 180);

/**
 * The chains of what moved as one body: one on each part, at its farthest point, each the way that the motion of the whole body has it
 * there, or its own way where its point has to go another beyond doubt; none on a part beside a longer one that is pulled the same way
 * already, for that one carries it (common practice). A part by itself keeps its couple against a twist.
 */
export function bodyHooks(
  body: readonly MovedMetal[],
  areBeside: (a: PlannedPart, b: PlannedPart) => boolean,
): StepHook[] {
  const [first] = body;
  if (body.length === 1 && (first.plan.hooks.length > 1 || !first.isRigid))
    return first.plan.hooks.map((hook) => ({ ...hook, plan: first.plan }));
  const all = joinedPoints(body.map(({ moved }) => moved));
  const neededAt = neededByMotion(all);
  const candidates = body
    .map(({ plan }): StepHook => {
      const [hook] = plan.hooks;
      const needed = neededAt?.(hook.move.point.reference) ?? null;
      const direction = needed && unitVector(needed);
      if (needed === null || direction === null || hasOwnWay(all, hook, needed)) return { ...hook, plan };
      return { ...hook, plan, direction, writtenDirection: roundedDirection(direction) };
    })
    .sort((a, b) => reachMm(b.plan) - reachMm(a.plan) || length(b.move.moveMm) - length(a.move.moveMm));
  const hooks: StepHook[] = [];
  for (const hook of candidates)
    if (
      !hooks.some(
        (other) => areBeside(other.plan, hook.plan) && dot(other.direction, hook.direction) > sameWay,
      )
    )
      hooks.push(hook);
  return hooks;
}

/** That a point has to go as its body does is doubted from here on. */
const doubtedAt = 0.99;

/** Whether a point has to go another way than its body has it there: the opposite, or so far off that one motion does not carry it and the rest. */
function hasOwnWay(all: MovedPoints, { move, direction }: PlannedHook, needed: Vec3): boolean {
  const along = dot(direction, needed);
  if (along <= 0) return true;
  if (along > sameWay * length(needed)) return false;
  const at = all.from.indexOf(move.point.reference);
  const rest = pointsPicked(all, (i) => i !== at);
  if (at < 0 || rest.from.length === 0) return false;
  const { squared, degreesOfFreedom } = motionDistance(
    rest,
    pointsPicked(all, (i) => i === at),
  );
  return squared > chiSquareQuantile(doubtedAt, degreesOfFreedom);
}

const pointsPicked = ({ from, to, weights }: MovedPoints, isPicked: (i: number) => boolean): MovedPoints => ({
  from: from.filter((_, i) => isPicked(i)),
  to: to.filter((_, i) => isPicked(i)),
  weights: weights.filter((_, i) => isPicked(i)),
});

/** How far the points of a part reach along it, mm. */
function reachMm({ moves, part }: PlannedPart): number {
  const places = moves.map(({ point }) => point.reference[part.along]);
  return Math.round(Math.max(...places) - Math.min(...places));
}

/** The way home at a place, mm, as the motion of all points has it: less doubtful than one reading. Null where they are too few to tell. */
function neededByMotion({ from, to, weights }: MovedPoints): ((place: Vec3) => Vec3) | null {
  if (from.length < 3) return null;
  const fit = rigidFit(from, to, weights);
  return (place) => subtract(place, movedVector(fit, place));
}
