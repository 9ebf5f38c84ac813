import { bodyMotion } from '../../server/src/geometry/body-motion';
import { dot, length, scaled, subtract, type Vec3 } from '../../server/src/geometry/vector';
import type { Inspection } from '../../server/src/inspection/inspect';
import { observedPulls } from '../../server/src/inspection/observed-pulls';
import { springBack } from '../../server/src/inspection/spring-back';
import type { PartInspection, Stage } from '../../server/src/inspection/stage';
import { bodyPoints } from './body';
import type { DamageField } from './damage';
import type { SimulatedJob } from './job';
import type { State, TruePull } from './recovery';
import type { Tally } from './tally';

/**
 * Whether 95 % intervals (1.96 standard uncertainties) hold the truth, in stages whose base is settled. The truth of a part is the
 * same figure taken from where its metal truly stands, build scatter included; of a pull, from how its points truly moved. A bend
 * is not as sharp as the fit assumes: its truth is where its straight courses before and beyond would meet, which is what the fit
 * looks for; where the metal begins to bend is counted too.
 */
const factor95 = 1.96;

/** Right: settled, and no control point in it has moved. */
export const bases = ['right', 'settled'] as const;

export const quantities = [
  'shift',
  'twist of a part',
  'twist at a station',
  'bend: corner',
  'bend: start of the hinge',
  'recovery of a pull',
  'spring-back ratio, one pull',
  'spring-back ratio, more pulls',
] as const;
export type Quantity = (typeof quantities)[number];

export function countCoverage(tally: Tally, simulated: SimulatedJob, inspection: Inspection): void {
  const { cell, car } = simulated;
  const [first] = inspection.stages;
  const isRight = !first.alignment?.baseIds.some((id) => car.movedControl.has(id));
  const covered = (quantity: Quantity, found: number, u: number, truth: number) => {
    const hit = Math.abs(found - truth) <= factor95 * u;
    for (const base of bases) {
      if (base === 'right' && !isRight) continue;
      tally.count(['coverage', quantity, cell.scatterMm, base], hit);
      tally.count(['coverage', quantity, cell.scatterMm, base, cell.controlCount], hit);
      tally.count(['coverage', quantity, cell.scatterMm, base, cell.controlState], hit);
    }
  };
  if (!first.provisional) {
    for (const part of first.parts.filter(({ part }) => part.id !== 'floor'))
      countMotion(covered, part, car.received);
    countBends(tally, covered, simulated, first);
    countConditions(tally, simulated, first);
  }
  countSpringBack(covered, simulated, inspection);
}

/** How far past the place where the metal begins to bend a hold may stand and be counted, mm. */
export const holdsPastMm = [0, 20] as const;

type Covered = (quantity: Quantity, found: number, u: number, truth: number) => void;

function countMotion(covered: Covered, part: PartInspection, received: State): void {
  const truePosition = (id: string): Vec3 => received.get(id)!;
  const references = part.displacements.map(({ point }) => point.reference);
  const truth = bodyMotion(
    references,
    part.displacements.map(({ point }) => truePosition(point.id)),
    references.map(() => 1),
  );
  for (const k of [0, 1, 2] as const)
    covered('shift', part.shift[k], part.shiftUncertainty[k], truth.shift[k]);
  if (part.twist !== null && truth.twist !== null)
    covered('twist of a part', part.twist.angleRad, part.twist.uncertaintyRad, truth.twist);
  if (part.part.along !== 0) return;
  for (const { members, twist } of part.stations) {
    if (twist === null || members.length !== 2) continue;
    const angle = (at: (id: string, reference: Vec3) => Vec3) => {
      const [low, high] = [...members].sort((a, b) => a.point.reference[2] - b.point.reference[2]);
      const arm = subtract(at(high.point.id, high.point.reference), at(low.point.id, low.point.reference));
      return Math.atan2(-arm[1], arm[2]);
    };
    const turn = angle((id) => truePosition(id)) - angle((_, reference) => reference);
    covered('twist at a station', twist.angleRad, twist.uncertaintyRad, turn);
  }
}

/** Bends are asked of rails of which the truth is plain; with the zone moved, a straight rail is displaced and turned as well. */
function countBends(tally: Tally, covered: Covered, { cell, car }: SimulatedJob, stage: Stage): void {
  if (cell.controlState === 'zone' || cell.controlState === 'stated zone') return;
  const railKinds = ['bent rail', 'twisted rail', 'yawed rail', 'bent and twisted rail'];
  for (const { part, bend } of stage.parts) {
    if (part.name !== 'front-rail') continue;
    const { field } = car;
    const declared = bend.kind === 'bend';
    if (field?.yawedPart === part.id) tally.count(['bend declared', 'yawed', cell.scatterMm], declared);
    else if (field?.bend?.part === part.id) {
      const { startMm, cornerMm } = field.bend;
      const size = cell.damage!.size;
      for (const kind of ['bend', 'several', 'none', 'too-few-stations'])
        tally.count(['bent rail', size, cell.scatterMm, kind], bend.kind === kind);
      if (!declared) continue;
      covered('bend: corner', bend.atMm, bend.uncertaintyMm, cornerMm);
      covered('bend: start of the hinge', bend.atMm, bend.uncertaintyMm, startMm);
      for (const pastMm of holdsPastMm)
        tally.count(['hold', pastMm, cell.scatterMm], bend.straightToMm <= startMm + pastMm);
    } else if (field === null || (railKinds.includes(cell.damage!.kind) && isUntouched(field, part.id)))
      tally.count(['bend declared', 'undamaged', cell.scatterMm], declared);
  }
}

const isUntouched = (field: DamageField, part: string): boolean =>
  bodyPoints.every((point) => point.part !== part || length(field.displacement(point, 1)) === 0);

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
      recoveryMm,
      Math.sqrt(covariance[1][1]),
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
      row.ratio,
      row.ratioUncertainty,
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
