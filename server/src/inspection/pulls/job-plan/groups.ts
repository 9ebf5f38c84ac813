import { chiSquareQuantile } from '../../../geometry/distributions';
import { joinedPoints, type MovedPoints, motionDistance } from '../../../geometry/motion-agreement';
import { squaredDistance } from '../../../geometry/small-motion';
import { dot, type Mat3, subtract } from '../../../geometry/vector';
import type { Inspection } from '../../job/inspect';
import type { PlannedPart } from '../plan';
import { isFull } from '../plan-moves';
import type { MovedMetal } from './moved-metal';
import { gapsSeen, isNear, joinedTo, nearestPair, pointsOfPart } from './neighbours';

/** Past this two motions are not one. */
const agreeAt = 0.95;

/** Parts that are pulled in one step. */
export interface PulledTogether {
  /** What one rigid motion explains, each by itself: one body, or several that a seam holds together. */
  readonly bodies: readonly (readonly MovedMetal[])[];
  readonly why: 'motion' | 'seam' | 'gap';
}

/**
 * What moved together is pulled together: parts that stand side by side or are joined, and whose rigid motions agree. Then joined parts
 * that have to go the same way at their seam, and those at whose seam a gap was seen (common practice).
 */
export function pulledTogether(
  inspection: Inspection,
  metals: readonly MovedMetal[],
): readonly PulledTogether[] {
  const joined = joinedTo(inspection);
  const points = pointsOfPart(inspection.chassis);
  const ownPoints = ({ plan }: MovedMetal) => points.get(plan.part.id) ?? [];
  const areBeside = (a: MovedMetal, b: MovedMetal): boolean =>
    a.plan.stage === b.plan.stage &&
    (joined.get(a.plan.part.id)?.has(b.plan.part.id) || isNear(ownPoints(a), ownPoints(b)));
  let groups = movedAsOne(metals, areBeside).map(
    (body): PulledTogether => ({ bodies: [body], why: 'motion' }),
  );
  const gaps = gapsSeen(inspection);
  for (const a of metals)
    for (const b of metals) {
      if (a === b || !joined.get(a.plan.part.id)?.has(b.plan.part.id)) continue;
      const hasGap = gaps.has(a.plan.part.id) || gaps.has(b.plan.part.id);
      if (hasGap || seamAgrees(inspection, a.plan, b.plan)) groups = together(groups, a, b, hasGap);
    }
  return groups;
}

interface Body {
  readonly metals: readonly MovedMetal[];
  readonly moved: MovedPoints;
}

/**
 * The two that agree best become one body, until none do. A part that was bent besides did not move as a rigid body: its motion is so
 * doubtful that it would agree with any other, and what agrees because nobody knows is no one body.
 */
function movedAsOne(
  metals: readonly MovedMetal[],
  areBeside: (a: MovedMetal, b: MovedMetal) => boolean,
): readonly (readonly MovedMetal[])[] {
  const bent = metals.filter(({ isRigid }) => !isRigid).map((metal) => [metal]);
  let bodies: Body[] = metals
    .filter(({ isRigid }) => isRigid)
    .map((metal) => ({ metals: [metal], moved: metal.moved }));
  for (;;) {
    let best: { a: Body; b: Body; share: number } | null = null;
    for (const [i, a] of bodies.entries())
      for (const b of bodies.slice(i + 1)) {
        if (!a.metals.some((one) => b.metals.some((other) => areBeside(one, other)))) continue;
        const { squared, degreesOfFreedom } = motionDistance(a.moved, b.moved);
        const share = squared / chiSquareQuantile(agreeAt, degreesOfFreedom);
        if (share <= 1 && (best === null || share < best.share)) best = { a, b, share };
      }
    if (best === null) return [...bodies.map((body) => body.metals), ...bent];
    const { a, b } = best;
    const one = { metals: [...a.metals, ...b.metals], moved: joinedPoints([a.moved, b.moved]) };
    bodies = [...bodies.filter((body) => body !== a && body !== b), one];
  }
}

function together(
  groups: readonly PulledTogether[],
  a: MovedMetal,
  b: MovedMetal,
  hasGap: boolean,
): PulledTogether[] {
  const of = (metal: MovedMetal) => groups.find(({ bodies }) => bodies.some((body) => body.includes(metal)));
  const [one, other] = [of(a), of(b)];
  if (one === undefined || other === undefined || one === other) return [...groups];
  const why = hasGap || one.why === 'gap' || other.why === 'gap' ? 'gap' : 'seam';
  return [
    ...groups.filter((group) => group !== one && group !== other),
    { bodies: [...one.bodies, ...other.bodies], why },
  ];
}

/** Whether two joined parts have to go the same way where they stand nearest to each other. */
function seamAgrees({ chassis }: Inspection, a: PlannedPart, b: PlannedPart): boolean {
  const known = (plan: PlannedPart) => plan.moves.filter(isFull);
  const pair = nearestPair(
    known(a).map(({ point }) => point),
    known(b).map(({ point }) => point),
  );
  if (pair === null) return false;
  const one = known(a).find(({ point }) => point === pair.from);
  const other = known(b).find(({ point }) => point === pair.to);
  if (one === undefined || other === undefined || dot(one.moveMm, other.moveMm) <= 0) return false;
  // where neither has to go anywhere, no seam is at stake
  if (one.verdict !== 'outside' && other.verdict !== 'outside') return false;
  const variance = (k: 0 | 1 | 2): number =>
    one.uncertaintyMm[k] ** 2 + other.uncertaintyMm[k] ** 2 + 2 * chassis.buildElsewhereMm ** 2;
  const covariance: Mat3 = [
    [variance(0), 0, 0],
    [0, variance(1), 0],
    [0, 0, variance(2)],
  ];
  return squaredDistance(covariance, subtract(one.moveMm, other.moveMm)) <= chiSquareQuantile(agreeAt, 3);
}
