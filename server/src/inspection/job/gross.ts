import { moved } from '../../geometry/rigid-motion';
import { length, subtract, type Vec3 } from '../../geometry/vector';
import { derived } from '../../memory/derived';
import { type AxisLimits, axes, type Chassis } from '../../model/chassis';
import { hasNumbers, type Job, type Measure } from '../../model/job';
import { mirroredId, sideOf } from '../../model/names';
import type { TypedNumber, TypedTriple } from '../../model/typed-numbers';
import { mmPer, type Unit } from '../../model/units';
import { type BaseFit, baseFit, collinear, halfBand } from '../alignment/control-points';
import type { JudgedPoint } from '../alignment/points';
import { inVehicleDirections, meanOf } from '../alignment/prepared';
import { withDigitsSwapped, withOtherSign } from './digit-slips';
import type { Inspection } from './inspect';
import { outsidePoints } from './outside-points';
import { readingsById, reads } from './readings-by-id';
import type { Stage } from './stage';

/**
 * Readings that no damage explains: a sign lost, digits turned round, the other side, the wrong point. The guesses are made where
 * the slip was made, on the instrument's own numbers, and then moved by the stage's alignment.
 */
export interface Gross {
  readonly judged: JudgedPoint;
  /** How far off, mm. */
  readonly offMm: number;
  /** Likeliest first; empty where nothing explains it. */
  readonly explanations: readonly Explanation[];
}

export type Explanation =
  /** The place of the same point on the other side; `swapped`: and the other side's reading has this one's place. */
  | {
      readonly kind: 'other-side';
      readonly otherId: string;
      readonly swapped: boolean;
      readonly remainderMm: number;
    }
  | { readonly kind: 'other-point'; readonly otherId: string; readonly remainderMm: number }
  | {
      /** The sign, or two neighbouring digits, of one number. */
      readonly kind: 'slip';
      readonly what: 'sign' | 'digits';
      /** Which of the instrument's three numbers. */
      readonly number: 0 | 1 | 2;
      readonly from: TypedNumber;
      readonly to: string;
      /** The same slip in other repeats. */
      readonly more: readonly { readonly from: TypedNumber; readonly to: string }[];
      readonly remainderMm: number;
    };

/** Past this a slip of the hand is looked for; past the second it is one whatever explains it, mm. */
export const suspiciousMm = 100;
export const impossibleMm = 500;
/** How near its place a reading must come to believe an explanation, mm. */
const nearMm = 15;

/** By point id: the grossly misread points of a stage. */
export const grossReadings = (inspection: Inspection, stage: Stage): ReadonlyMap<string, Gross> =>
  foundIn(
    stage.points,
    inspection.chassis,
    stage.measure,
    stage.alignment?.base ?? null,
    inspection.job.unit,
    ...inspection.job.axes,
  );

/** A stage as its instrument gave it: what slips are looked for in. */
interface AsRead {
  readonly chassis: Chassis;
  readonly measure: Measure;
  readonly base: BaseFit | null;
  readonly unit: Unit;
  readonly axes: Job['axes'];
}

type Basis = readonly [
  chassis: Chassis,
  measure: Measure,
  base: BaseFit | null,
  unit: Unit,
  ...axes: Job['axes'],
];

/** By the points of a stage: as long as those are the same, so is what was typed for them. */
const foundIn = derived((points: readonly JudgedPoint[], ...[chassis, measure, base, unit, ...axes]: Basis) =>
  grossAmong(points, { chassis, measure, base, unit, axes }),
);

function grossAmong(points: readonly JudgedPoint[], asRead: AsRead): ReadonlyMap<string, Gross> {
  const found = new Map<string, Gross>();
  for (const judged of outsidePoints(points)) {
    const offMm = Math.hypot(...judged.deviation.map((d) => d ?? 0));
    if (offMm <= suspiciousMm) continue;
    const explanations = explanationsOf(asRead, judged);
    if (explanations.length > 0 || offMm > impossibleMm)
      found.set(judged.id, { judged, offMm, explanations });
  }
  return found;
}

function explanationsOf(asRead: AsRead, judged: JudgedPoint): Explanation[] {
  const base = asRead.base && baseWithout(asRead.base, judged);
  if (base === null || judged.reading.triplesMm.length === 0) return [];
  const { measure, unit } = asRead;
  /** Where numbers of the instrument lie in vehicle axes, read as this point's or as one on the other side. */
  const positionOf = (triples: readonly Vec3[], id: string): Vec3 => {
    const [x, y, z] = moved(base.fit, inVehicleDirections(meanOf(triples), asRead.axes, sideOf(id)));
    return [x, y, z];
  };
  const otherSide = otherSideOf(asRead, judged, positionOf);
  const slips = slipsOf(judged, mmPer[unit], (triples) =>
    remainder(positionOf(triples, judged.id), judged.point.reference, judged.point.limits),
  );
  const otherPoint = otherPointOf(asRead, judged, positionOf);
  const mirrored = mirroredId(judged.id);
  const isOtherRead = mirrored !== null && reads(measure, mirrored);
  const first = otherSide?.swapped || !isOtherRead ? otherSide : null;
  const all = [first, ...slips, first === null ? otherSide : null, otherPoint];
  return all.filter((each) => each !== null);
}

/** The base that judges a point: without the point itself. Null where that leaves none. */
function baseWithout(base: BaseFit, judged: JudgedPoint): BaseFit | null {
  if (!judged.inBase) return base;
  const others = base.members.filter((member) => member.id !== judged.id);
  return others.length < 3 || collinear(others.map((member) => member.reference)) ? null : baseFit(others);
}

/** How far a position is from a place, mm; null where too far to believe that it is meant. */
function remainder(position: Vec3, reference: Vec3, limits: AxisLimits): number | null {
  const d = subtract(position, reference);
  return axes.every((k) => Math.abs(d[k]) <= Math.max(3 * halfBand(limits[k]), nearMm)) ? length(d) : null;
}

type PositionOf = (triples: readonly Vec3[], id: string) => Vec3;

function otherSideOf({ chassis, measure }: AsRead, judged: JudgedPoint, positionOf: PositionOf) {
  const otherId = mirroredId(judged.id);
  const other = otherId === null ? undefined : chassis.points.get(otherId);
  if (other === undefined) return null;
  const remainderMm = remainder(
    positionOf(judged.reading.triplesMm, other.id),
    other.reference,
    other.limits,
  );
  if (remainderMm === null) return null;
  const reading = readingsById(measure).get(other.id);
  const swapped =
    reading !== undefined &&
    hasNumbers(reading) &&
    remainder(positionOf(reading.triplesMm, judged.id), judged.point.reference, judged.point.limits) !== null;
  return { kind: 'other-side', otherId: other.id, swapped, remainderMm } as const;
}

/** The point whose place the reading has; the nearest. */
function otherPointOf({ chassis }: AsRead, judged: JudgedPoint, positionOf: PositionOf) {
  let best: { otherId: string; remainderMm: number } | null = null;
  for (const other of chassis.points.values()) {
    if (other.id === judged.id || other.id === mirroredId(judged.id)) continue;
    const remainderMm = remainder(
      positionOf(judged.reading.triplesMm, other.id),
      other.reference,
      other.limits,
    );
    if (remainderMm !== null && (best === null || remainderMm < best.remainderMm))
      best = { otherId: other.id, remainderMm };
  }
  return best === null ? null : ({ kind: 'other-point', ...best } as const);
}

/** A sign or two neighbouring digits of one number, in one repeat or in all; the best of each kind. */
function slipsOf(
  judged: JudgedPoint,
  mm: number,
  remainderOf: (triples: readonly Vec3[]) => number | null,
): Explanation[] {
  const { triplesMm, typed } = judged.reading;
  if (typed === null) return [];
  const each = triplesMm.map((_, i) => [i]);
  const groups = triplesMm.length > 1 ? [triplesMm.map((_, i) => i), ...each] : each;
  const best = new Map<string, Explanation>();
  for (const group of groups)
    for (const number of axes)
      for (const { kind, changes } of changesOf(typed, group, number)) {
        const triples = triplesMm.map((triple, i) => changedTriple(triple, number, changes.get(i), mm));
        const remainderMm = remainderOf(triples);
        const known = best.get(kind);
        if (remainderMm === null || (known && known.remainderMm <= remainderMm)) continue;
        const edits = group.map((i) => ({ from: typed[i][number], to: changes.get(i)! }));
        best.set(kind, { kind: 'slip', what: kind, number, ...edits[0], more: edits.slice(1), remainderMm });
      }
  return [best.get('sign'), best.get('digits')].filter((found) => found !== undefined);
}

const changedTriple = (triple: Vec3, number: 0 | 1 | 2, source: string | undefined, mm: number): Vec3 => {
  if (source === undefined) return triple;
  const changed: [number, number, number] = [...triple];
  changed[number] = Number(source) * mm;
  return changed;
};

/** What one number of some repeats may have been meant to be: for each guess the new source by repeat. */
function changesOf(typed: readonly TypedTriple[], group: readonly number[], number: 0 | 1 | 2) {
  const sources = group.map((i) => typed[i][number].source);
  const guesses: { kind: 'sign' | 'digits'; changes: Map<number, string> }[] = [];
  const guess = (kind: 'sign' | 'digits', changed: readonly (string | undefined)[]) => {
    if (changed.every((source) => source !== undefined))
      guesses.push({ kind, changes: new Map(group.map((i, n) => [i, changed[n]])) });
  };
  if (sources.every((source) => Number(source) !== 0)) guess('sign', sources.map(withOtherSign));
  const swaps = sources.map(withDigitsSwapped);
  swaps[0].forEach((_, n) => {
    guess(
      'digits',
      swaps.map((each) => each[n]),
    );
  });
  return guesses;
}
