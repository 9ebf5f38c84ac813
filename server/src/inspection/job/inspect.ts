import type { Chassis } from '../../model/chassis';
import type { Job } from '../../model/job';
import { inQuestion } from '../frame/in-question';
import { type Earlier, headOf, judgedMeasure } from './judged-measure';
import { MeasuredStage, type Stage } from './stage';
import { tramOnly } from './tram';
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
  const head = headOf(job, isTramOnly);
  const question = inQuestion(job, chassis, work);
  const stages: Stage[] = [];
  let earlier: Earlier | null = null;
  job.timeline.forEach((measure, index) => {
    if (measure.kind !== 'measure') return;
    const underTension = work.tensionAt(index).size > 0;
    const judged = judgedMeasure(
      job,
      chassis,
      measure,
      earlier,
      heldBack,
      head,
      isTramOnly,
      question,
      underTension,
    );
    const stage = new MeasuredStage(measure, index, underTension, judged);
    if (stage.alignment !== null && measure.readings.some((reading) => !reading.unreachable))
      earlier = { name: stage.name, alignment: stage.alignment };
    stages.push(stage);
  });
  return { job, chassis, stages, work, heldBack };
}
