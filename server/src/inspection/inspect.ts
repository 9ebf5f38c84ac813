import type { Chassis } from '../model/chassis';
import type { Job, Measure } from '../model/job';
import { type Alignment, alignmentOf, unusable } from './alignment';
import { bodyOf } from './body';
import { alignedDoubt } from './displacements';
import { partInspections } from './part-inspections';
import { displacementsOf, judgedPoints, unjudgedPoint } from './points';
import { instrumentOf, preparedReadings } from './prepared';
import { judgedSpans } from './spans';
import type { Stage } from './stage';
import { tramOnly, tramStage } from './tram';
import { type Work, workOf } from './work';

/** A job judged against its chassis. */
export interface Inspection {
  readonly job: Job;
  readonly chassis: Chassis;
  readonly stages: readonly Stage[];
  readonly work: Work;
  /** Something in the text is broken: conclusions that need the whole job are held back. */
  readonly heldBack: boolean;
}

/** The same text gives the same inspection, wherever it is asked for. */
export function inspected(job: Job, chassis: Chassis): Inspection {
  const work = workOf(job, chassis);
  const heldBack = job.broken || chassis.broken;
  const isTramOnly = tramOnly(job);
  const stages: Stage[] = [];
  let earlier: { name: string; alignment: Alignment } | null = null;
  job.timeline.forEach((entry, index) => {
    if (entry.kind !== 'measure') return;
    const underTension = work.tensionAt(index).size > 0;
    const frame = { measure: entry, index, name: entry.name, underTension };
    const stage = isTramOnly
      ? { ...frame, ...tramStage(job, chassis, entry), provisional: heldBack }
      : { ...frame, ...alignedStage(job, chassis, entry, earlier, heldBack) };
    if (stage.alignment !== null && entry.readings.some((reading) => !reading.unreachable))
      earlier = { name: stage.name, alignment: stage.alignment };
    stages.push(withUnreachable(stage));
  });
  return { job, chassis, stages, work, heldBack };
}

type Judged = Omit<Stage, 'measure' | 'index' | 'name' | 'underTension' | 'unreachable'>;

const withUnreachable = (stage: Omit<Stage, 'unreachable'>): Stage => ({
  ...stage,
  unreachable: stage.measure.readings.filter((reading) => reading.unreachable),
});

function alignedStage(
  job: Job,
  chassis: Chassis,
  measure: Measure,
  earlier: { name: string; alignment: Alignment } | null,
  heldBack: boolean,
): Judged {
  const readings = preparedReadings(job, chassis, measure);
  const spans = judgedSpans(chassis, instrumentOf(job, measure), measure.spans);
  const nothing = { points: [], spans, parts: [], body: null, displacements: [], doubt: null, network: null };
  if (readings.length === 0) return { ...nothing, alignment: null, provisional: heldBack };
  const alignment = alignmentOf(job, chassis, measure, readings, earlier);
  const provisional = heldBack || alignment.provisional;
  // mirrored or out of scale: nothing else is concluded, not even the distances
  if (unusable(alignment)) return { ...nothing, alignment, spans: [], provisional };
  const { base } = alignment;
  if (base === null) return { ...nothing, alignment, provisional, points: readings.map(unjudgedPoint) };
  const points = judgedPoints(base, readings, alignment.inherited === null);
  const displacements = displacementsOf(base, readings);
  const doubt = alignedDoubt(base.scatteredMotion);
  return {
    alignment,
    provisional,
    points,
    spans,
    parts: partInspections(chassis, displacements, doubt, base.motion.centroid),
    body: bodyOf(
      displacements,
      points,
      doubt,
      base.members.map((member) => member.reference[0]),
    ),
    displacements,
    doubt,
    network: null,
  };
}
