import type { Vec3 } from '../../geometry/vector';
import { derived } from '../../memory/derived';
import type { Chassis, Point } from '../../model/chassis';
import type { Job } from '../../model/job';
import { inZoneOf } from '../../model/resolve/resolved-job';
import { type BaseFit, halfBand } from '../alignment/control-points';
import type { PreparedReading } from '../alignment/prepared';
import { type FramePoint, scatterElsewhere } from './frame-points';
import type { InQuestion } from './in-question';
import { type ReadPoint, type ReadWitness, type StageFrame, stageFrame } from './stage-frame';
import { calledFor, type Story } from './stories';

/** What one stage's base is asked about. */
export interface BaseQuestion {
  readonly job: Job;
  readonly chassis: Chassis;
  readonly readings: readonly PreparedReading[];
  readonly question: InQuestion;
  readonly underTension: boolean;
}

/** Where a point of the sheet is and half of its tolerance's band: asked of every point at each edit. */
const sheetPlace = derived(({ reference, limits }: Point): { readonly place: Vec3; readonly half: Vec3 } => ({
  place: reference,
  half: [halfBand(limits[0]), halfBand(limits[1]), halfBand(limits[2])],
}));

function readPoint({ id, point, measured }: PreparedReading, variance: number): ReadPoint {
  const { place, half } = sheetPlace(point);
  return { id, place, half, measured, variance, name: point.name, side: point.side };
}

/**
 * The base with all that may testify. Null where they do not hold a frame.
 * @param ofList a base that the job lists is tested by what stands around it too, though nothing but itself aligns the car
 */
export function frameAround(base: BaseFit, asked: BaseQuestion, ofList = false): StageFrame | null {
  const members = new Map(base.members.map((member) => [member.id, member]));
  const control = asked.readings.flatMap((reading) => {
    const member = members.get(reading.id);
    return member === undefined ? [] : [readPoint(reading, member.variance)];
  });
  return stageFrame(
    control,
    possibleWitnesses(asked, ofList),
    scatterElsewhere(asked.chassis.buildElsewhereMm),
    {
      rotation: base.fit.rotation,
      translation: base.fit.translation,
      factor: base.scatteredMotion.factor,
    },
  );
}

/**
 * Points that are no control points, of parts that nobody has in question. None where the job states its base, where it does not say what it is
 * about, and under load; with a stated zone only what stands in it.
 */
function possibleWitnesses(
  { job, readings, chassis, question, underTension }: BaseQuestion,
  ofList: boolean,
): ReadWitness[] {
  const { base } = job;
  if ((base.kind === 'ids' && !ofList) || question.scope === null || underTension) return [];
  return readings.flatMap((reading) => {
    const { point, variance } = reading;
    const isQuestioned =
      question.points.has(point.id) || (point.part !== null && question.parts.has(point.part));
    if (point.base || isQuestioned || !inZoneOf(base, point)) return [];
    const partName = point.part === null ? null : (chassis.parts.get(point.part)?.name ?? point.part);
    return [{ point: readPoint(reading, variance + point.uncertaintyMm ** 2), partName }];
  });
}

/** Other ways in which the base may have moved that the readings of the stage call for, the best first. */
export function storiesOfBase(frame: StageFrame, asked: BaseQuestion): Story[] {
  const { base, groups, weighing, joined } = frame;
  // what stands around a listed base tests it, and has no say in what is told
  const toldBy = asked.job.base.kind === 'ids' ? null : (joined?.motion ?? null);
  return calledFor({ base, groups, weighing, scope: () => scopeOf(asked), toldBy });
}

/** The points that the job is about; where it does not say, all that was read and is no control point. */
export function scopeOf({
  chassis,
  readings,
  question: { scope },
}: BaseQuestion): Pick<FramePoint, 'place' | 'half'>[] {
  const points: Pick<FramePoint, 'place' | 'half'>[] = [];
  if (scope === null) {
    for (const { point } of readings) if (!point.base) points.push(sheetPlace(point));
  } else
    for (const point of chassis.points.values())
      if (point.part !== null && scope.has(point.part)) points.push(sheetPlace(point));
  return points;
}
