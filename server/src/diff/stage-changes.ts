import type { DiffChange, DiffReading, DiffStage } from '@framewright/schemas';
import type { JudgedPoint, MaybeVec3 } from '../inspection/alignment/points';
import type { JudgedSpan } from '../inspection/alignment/spans';
import { spanName } from '../inspection/gate/current-spans';
import type { Stage } from '../inspection/job/stage';
import type { Measure } from '../model/job';
import { anyDiffers, inWords, type Pair, pairedMaps, statedChanges } from './compared';

/** A measure of one side. */
export interface StageSide {
  readonly measure: Measure;
  /** Position in the timeline. */
  readonly index: number;
  /** Null where the job cannot be judged. */
  readonly stage: Stage | null;
  /** The last work before it, as it is called; null where there is none. */
  readonly behind: string | null;
}

export type Read = DiffReading['before'];

const copied = (rows: readonly (readonly number[])[]): number[][] => rows.map((row) => [...row]);

/** What a measure read, by point and by distance. */
export function readIn({ readings, spans }: Measure): Map<string, Read> {
  const points = readings.map(({ id, triplesMm, unreachable, asBefore }): [string, Read] => [
    id,
    unreachable ? 'unreachable' : asBefore ? 'as-before' : copied(triplesMm),
  ]);
  const distances = spans.map((span): [string, Read] => [
    spanName(span),
    span.unreachable ? 'unreachable' : span.distancesMm.map((mm) => [mm]),
  ]);
  return new Map([...points, ...distances]);
}

export function isSameRead(one: Read, other: Read): boolean {
  if (!Array.isArray(one) || !Array.isArray(other)) return one === other;
  return one.length === other.length && one.every((row, k) => !anyDiffers(row, other[k]));
}

/** What is another in a measure that both sides have, or that one side has. */
export function stageChange({ before, after }: Pair<StageSide>): DiffStage {
  const told = after ?? before;
  const name = told?.measure.name ?? '';
  const entry = {
    name,
    was: before !== null && after !== null && before.measure.name !== name ? before.measure.name : null,
    behind: told?.behind ?? null,
    read: told === null ? 0 : readIn(told.measure).size,
    outside: told === null ? [] : outsideIn(told.stage),
  };
  if (before === null || after === null)
    return {
      ...entry,
      status: before === null ? 'added' : 'dropped',
      readings: [],
      points: [],
      distances: [],
      facts: [],
    };
  return {
    ...entry,
    status: 'kept',
    readings: readingChanges(before.measure, after.measure),
    points: pointChanges(before.stage, after.stage),
    distances: distanceChanges(before.stage, after.stage),
    facts: [...howRead(before.measure, after.measure), ...howJudged(before.stage, after.stage)],
  };
}

export const saysNothing = ({ was, status, readings, points, distances, facts }: DiffStage): boolean =>
  status === 'kept' &&
  was === null &&
  [readings, points, distances, facts].every((list) => list.length === 0);

const outsideIn = (stage: Stage | null): string[] =>
  stage === null
    ? []
    : [
        ...stage.points.filter(({ verdict }) => verdict === 'outside').map(({ id }) => id),
        ...stage.spans.filter(({ verdict }) => verdict === 'outside').map(spanName),
      ];

const readingChanges = (before: Measure, after: Measure): DiffReading[] =>
  pairedMaps(readIn(before), readIn(after)).flatMap(({ key, pair }): DiffReading[] => {
    if (isSameRead(pair.before, pair.after)) return [];
    const status = pair.before === null ? 'added' : pair.after === null ? 'dropped' : 'changed';
    return [{ name: key, status, ...pair, from: null }];
  });

const howRead = (before: Measure, after: Measure): DiffChange[] => {
  const statedOf = ({ by, at, setUp, instrument, conditions, note }: Measure): object => ({
    by,
    at,
    'set-up': setUp,
    instrument: inWords(instrument),
    conditions: inWords(conditions),
    note,
  });
  return statedChanges(statedOf(before), statedOf(after));
};

/** The base and what became of it. */
const howJudged = (before: Stage | null, after: Stage | null): DiffChange[] =>
  before === null || after === null ? [] : statedChanges(baseOf(before), baseOf(after));

const baseOf = ({ alignment, provisional, underTension }: Stage): object => ({
  base: [...(alignment?.baseIds ?? [])].sort(),
  'taken over from': alignment?.inherited ?? null,
  'control points that moved': [...(alignment?.movedIds ?? [])].sort(),
  alignment: provisional ? 'provisional' : 'settled',
  read: underTension ? 'under load' : 'off load',
});

/** Less shows in no figure, mm. */
const leastShownMm = 0.05;

const movedBy = (one: number | null, other: number | null): boolean =>
  one === null || other === null ? one !== other : Math.abs(one - other) >= leastShownMm;

const pointChanges = (before: Stage | null, after: Stage | null): DiffStage['points'] =>
  pairedMaps(pointsOf(before), pointsOf(after)).flatMap(({ key, pair }) => {
    const { before: was, after: now } = pair;
    const isSame =
      was !== null &&
      now !== null &&
      was.verdict === now.verdict &&
      !was.deviation.some((mm, k) => movedBy(mm, now.deviation[k]));
    return isSame ? [] : [{ point: key, before: was && figuresOf(was), after: now && figuresOf(now) }];
  });

const pointsOf = (stage: Stage | null): Map<string, JudgedPoint> =>
  new Map((stage?.points ?? []).map((judged) => [judged.id, judged]));

const tripleOf = ([x, y, z]: MaybeVec3): [number | null, number | null, number | null] => [x, y, z];

const figuresOf = ({ deviation, uncertainty, verdict }: JudgedPoint) => ({
  deviation: tripleOf(deviation),
  uncertainty: tripleOf(uncertainty),
  verdict,
});

const distanceChanges = (before: Stage | null, after: Stage | null): DiffStage['distances'] =>
  pairedMaps(distancesOf(before), distancesOf(after)).flatMap(({ key, pair }) => {
    const { before: was, after: now } = pair;
    const isSame =
      was !== null &&
      now !== null &&
      was.verdict === now.verdict &&
      !movedBy(was.deviationMm, now.deviationMm);
    return isSame ? [] : [{ name: key, before: was && spanFigures(was), after: now && spanFigures(now) }];
  });

const distancesOf = (stage: Stage | null): Map<string, JudgedSpan> =>
  new Map((stage?.spans ?? []).map((span) => [spanName(span), span]));

const spanFigures = ({ deviationMm, uncertaintyMm, verdict }: JudgedSpan) => ({
  deviation: deviationMm,
  uncertainty: uncertaintyMm,
  verdict,
});
