import type { Chassis, Point } from '../../model/chassis';
import type { Instrument, Job } from '../../model/job';
import { inZoneOf, markedPoints, resolvedJob } from '../../model/resolve/resolved-job';
import { instrumentOf, preparedReadings } from '../alignment/prepared';
import { assumedUncertaintyMm, readingVariance } from '../alignment/uncertainty';
import { unusable } from '../frame/alignment';
import { type FramePoint, scatterElsewhere } from '../frame/frame-points';
import { type InQuestion, inQuestion } from '../frame/in-question';
import type { WitnessesSeen } from '../frame/witnesses-seen';
import type { Inspection } from '../job/inspect';
import { readingsById } from '../job/readings-by-id';
import { pointsInScope } from '../job/scope';
import type { Stage } from '../job/stage';
import { tramOnly } from '../job/tram';
import type { Asked } from './answer';
import { framePointOf, itemsOf, type Offer, ownEnd, placeOf, varianceOf } from './frame-places';
import type { BelievedWitness } from './measuring-advice';

/** How a job is asked what to read. */
interface AdviceOptions {
  /** Of further readings; null: of the job's instrument. */
  readonly uncertaintyMm: number | null;
  /** Points that are no control points help to align. */
  readonly witnesses: boolean;
  /** What is to be decided instead of the scope; null: the scope. */
  readonly judged: readonly Point[] | null;
}

/** Why there is no advice: text is broken, the job reads distances alone, the stage cannot be understood, nothing says what is judged. */
export type NoAdvice = 'broken' | 'distances' | 'unusable' | 'no-scope';

/** @param stage the measure that further rows go into; null: a new one, of which nothing is read yet */
export function jobQuestion(
  inspection: Inspection,
  stage: Stage | null,
  options: AdviceOptions,
): Asked | NoAdvice {
  const { job, chassis, work, heldBack } = inspection;
  if (heldBack) return 'broken';
  if (tramOnly(job)) return 'distances';
  if (stage !== null && unusable(stage.alignment)) return 'unusable';
  const points = options.judged ?? judgedAt(inspection, stage);
  if (points.length === 0) return 'no-scope';
  const question = inQuestion(job, chassis, work);
  const variance = furtherVariance(inspection, stage, options.uncertaintyMm);
  const seen = seenIn(stage);
  const unsettled = stage !== null && isUnsettledFrame(stage);
  const counts = options.witnesses && job.base.kind !== 'ids' && question.scope !== null && !unsettled;
  const { control, factor } = baseSoFar(inspection, stage);
  const inBase = new Map(control.map((each) => [each.id, each.variance]));
  const isRead = readOrAway(inspection, stage);
  const offered = offersOf({ job, chassis, question, points }, variance, counts);
  return {
    points,
    readingVariance: variance,
    confinedTo: job.base.kind,
    unsettled,
    question: {
      base: control,
      witnesses: counts && stage !== null ? witnessesRead(inspection, stage, question, seen) : [],
      factor,
      items: itemsOf(offered.filter(({ point }) => !isRead(point))),
      scope: points.map((point) => ({ ...placeOf(point), inBase: inBase.get(point.id) })),
      scatter: seen?.scatter ?? scatterElsewhere(chassis.buildElsewhereMm),
    },
  };
}

/** Whether the stage has control points of its own that are not settled: nothing around them helps to align then. */
const isUnsettledFrame = ({ alignment, provisional }: Stage): boolean =>
  provisional && alignment !== null && alignment.inherited === null && alignment.base !== null;

/** What helps to align the stage, as its own frame believes it; null where no frame has looked yet. */
const seenIn = (stage: Stage | null): WitnessesSeen | null =>
  stage?.alignment?.inherited === null ? stage.alignment.witnesses : null;

/** What is to be decided: the scope; where none is stated, what this stage judges, or what the job is about so far. */
function judgedAt(inspection: Inspection, stage: Stage | null): Point[] {
  const { job, chassis } = inspection;
  const { scope, controlIds } = resolvedJob(job, chassis);
  const all = [...chassis.points.values()];
  if (scope !== null) return all.filter(({ part }) => part !== null && scope.has(part));
  const ids = new Set(stage === null ? pointsInScope(inspection) : readingsById(stage.measure).keys());
  return all.filter(({ id }) => ids.has(id) && !controlIds.has(id));
}

function furtherVariance(
  { job, stages }: Inspection,
  stage: Stage | null,
  uncertaintyMm: number | null,
): number {
  if (uncertaintyMm !== null) return uncertaintyMm ** 2;
  const last = stage ?? stages.at(-1);
  const instrument: Instrument | null = last === undefined ? job.instrument : instrumentOf(job, last.measure);
  return instrument === null ? assumedUncertaintyMm ** 2 : readingVariance(instrument, 1);
}

/** The control points that the stage rests on, or, where it has no alignment of its own, those that it read. */
function baseSoFar(
  { job, chassis }: Inspection,
  stage: Stage | null,
): { control: FramePoint[]; factor: number } {
  if (stage === null) return { control: [], factor: 1 };
  const { alignment } = stage;
  const base = alignment?.inherited === null ? alignment.base : null;
  if (base)
    return {
      factor: base.scatteredMotion.factor,
      control: base.members.flatMap(({ id, variance }) => {
        const point = chassis.points.get(id);
        return point === undefined ? [] : [framePointOf(point, variance)];
      }),
    };
  const { controlIds } = resolvedJob(job, chassis);
  const read = preparedReadings(job, chassis, stage.measure).filter(({ id }) => controlIds.has(id));
  return {
    factor: 1,
    control: read.map(({ point, variance }) =>
      framePointOf(point, varianceOf(point, variance, chassis.buildMm)),
    ),
  };
}

/** What need not be asked for: rows that stand there already; in a new measure what could not be reached last time, or had moved. */
function readOrAway({ stages }: Inspection, stage: Stage | null): (point: Point) => boolean {
  if (stage !== null) {
    const rows = readingsById(stage.measure);
    return ({ id }) => rows.has(id);
  }
  const last = stages.at(-1);
  const away = new Set([
    ...(last?.unreachable.map(({ id }) => id) ?? []),
    ...(last?.alignment?.movedIds ?? []),
  ]);
  return ({ id }) => away.has(id);
}

interface Ground {
  readonly job: Job;
  readonly chassis: Chassis;
  readonly question: InQuestion;
  readonly points: readonly Point[];
}

/** Control points, and where they count witnesses; neither of the scope, nor at its own end. A listed base is taken at its word. */
function offersOf({ job, chassis, question, points }: Ground, variance: number, counts: boolean): Offer[] {
  const { controlIds } = resolvedJob(job, chassis);
  const isListed = job.base.kind === 'ids';
  const isAtEnd = ownEnd(points, markedPoints(chassis));
  const judged = new Set(points);
  return [...chassis.points.values()].flatMap((point): Offer[] => {
    const isControl = controlIds.has(point.id);
    if (!isListed && (judged.has(point) || question.points.has(point.id) || isAtEnd(point))) return [];
    if (isControl)
      return [{ point, isControl, variance: varianceOf(point, variance, chassis.buildMm), partName: null }];
    if (!counts || point.base || !mayTestify({ job, question }, point)) return [];
    return [
      { point, isControl, variance: varianceOf(point, variance, 0), partName: partNameOf(point, chassis) },
    ];
  });
}

const mayTestify = ({ job, question }: Pick<Ground, 'job' | 'question'>, point: Point): boolean =>
  !question.points.has(point.id) &&
  !(point.part !== null && question.parts.has(point.part)) &&
  inZoneOf(job.base, point);

const partNameOf = ({ part }: Point, { parts }: Chassis): string | null =>
  part === null ? null : (parts.get(part)?.name ?? part);

function witnessesRead(
  { job, chassis }: Inspection,
  stage: Stage,
  question: InQuestion,
  seen: WitnessesSeen | null,
): BelievedWitness[] {
  if (stage.underTension) return [];
  const beliefs = new Map(
    seen?.groups.flatMap(({ ids, belief }) =>
      ids.map((id, i) => [id, { own: belief.points[i], group: belief.group }] as const),
    ),
  );
  return preparedReadings(job, chassis, stage.measure).flatMap(({ point, variance }): BelievedWitness[] => {
    const belief = beliefs.get(point.id);
    const isLeftOut = seen !== null && belief === undefined;
    if (point.base || isLeftOut || !mayTestify({ job, question }, point)) return [];
    return [
      {
        point: framePointOf(point, varianceOf(point, variance, 0)),
        partName: partNameOf(point, chassis),
        belief,
      },
    ];
  });
}
