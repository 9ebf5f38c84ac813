import { bodyMotion } from '../../server/src/geometry/body-motion';
import { dot, scaled, subtract, type Vec3 } from '../../server/src/geometry/vector';
import type { Inspection } from '../../server/src/inspection/job/inspect';
import type { PartInspection, Stage } from '../../server/src/inspection/job/stage';
import { observedPulls } from '../../server/src/inspection/pulls/observed-pulls';
import { springBack } from '../../server/src/inspection/pulls/spring-back';
import { countBends } from './bends';
import { about, type Covered, coverage } from './intervals';
import type { SimulatedJob } from './job';
import type { State, TruePull } from './recovery';
import type { Tally } from './tally';

export function countCoverage(tally: Tally, simulated: SimulatedJob, inspection: Inspection): void {
  const [first] = inspection.stages;
  const covered = coverage(tally, simulated, first);
  if (!first.provisional) {
    for (const part of first.parts.filter(({ part }) => part.id !== 'floor'))
      countMotion(covered, part, simulated.car.received);
    countBends(tally, covered, simulated, first);
    countConditions(tally, simulated, first);
  }
  countSpringBack(covered, simulated, inspection);
}

function countMotion(covered: Covered, part: PartInspection, received: State): void {
  const truePosition = (id: string): Vec3 => received.get(id)!;
  const references = part.displacements.map(({ point }) => point.reference);
  const truth = bodyMotion(
    references,
    part.displacements.map(({ point }) => truePosition(point.id)),
    references.map(() => 1),
  );
  for (const k of [0, 1, 2] as const)
    covered('shift', about(part.shift[k], part.shiftUncertainty[k]), truth.shift[k]);
  if (part.twist !== null && truth.twist !== null)
    covered('twist of a part', about(part.twist.angleRad, part.twist.uncertaintyRad), truth.twist);
  if (part.part.along !== 0) return;
  for (const { members, twist } of part.stations) {
    if (twist === null || members.length !== 2) continue;
    const angle = (at: (id: string, reference: Vec3) => Vec3) => {
      const [low, high] = [...members].sort((a, b) => a.point.reference[2] - b.point.reference[2]);
      const arm = subtract(at(high.point.id, high.point.reference), at(low.point.id, low.point.reference));
      return Math.atan2(-arm[1], arm[2]);
    };
    const turn = angle((id) => truePosition(id)) - angle((_, reference) => reference);
    covered('twist at a station', about(twist.angleRad, twist.uncertaintyRad), turn);
  }
}

const conditionKinds = ['mash', 'sidesway', 'sag', 'high', 'diamond', 'twist'] as const;

function countConditions(tally: Tally, { cell }: SimulatedJob, { body }: Stage): void {
  if (cell.controlState === 'zone' || cell.controlState === 'stated zone') return;
  const named = body?.front?.conditions ?? [];
  const kind = cell.damage?.kind ?? 'none';
  if (kind === 'none') tally.count(['condition', kind], named.length > 0);
  for (const condition of conditionKinds)
    if (kind === condition) tally.count(['condition', kind], named.includes(condition));
}

/** Recovery of each pull, and Σ m r / Σ m² of the same points of the same pulls, from where the metal truly was. */
function countSpringBack(covered: Covered, { pulls }: SimulatedJob, inspection: Inspection): void {
  const observed = observedPulls(inspection);
  for (const { index, pointIds, recoveryMm, covariance } of observed)
    covered(
      'recovery of a pull',
      about(recoveryMm, Math.sqrt(covariance[1][1])),
      trueMove(pulls.get(index)!, pointIds).r,
    );
  for (const row of springBack(inspection)) {
    if (row.ratio === null || row.ratioUncertainty === null) continue;
    const seen = observed.filter((each) => each.partId === row.part && each.relieved === row.relieved);
    const moves = seen.map((each) => trueMove(pulls.get(each.index)!, each.pointIds));
    const ratio =
      moves.reduce((total, { m, r }) => total + m * r, 0) / moves.reduce((total, { m }) => total + m * m, 0);
    covered(
      seen.length === 1 ? 'spring-back ratio, one pull' : 'spring-back ratio, more pulls',
      about(row.ratio, row.ratioUncertainty),
      ratio,
    );
  }
}

function trueMove({ before, peak, after }: TruePull, ids: readonly string[]): { m: number; r: number } {
  const moves = ids.map((id) => {
    const way = subtract(peak.get(id)!, before.get(id)!);
    const m = Math.hypot(...way);
    return { m, r: dot(scaled(way, 1 / m), subtract(peak.get(id)!, after.get(id)!)) };
  });
  const mean = (of: (each: { m: number; r: number }) => number) =>
    moves.reduce((total, each) => total + of(each), 0) / moves.length;
  return { m: mean(({ m }) => m), r: mean(({ r }) => r) };
}
