import type { Chassis } from '../../model/chassis';
import { hasNumbers, type Job } from '../../model/job';
import { placedJob } from '../../model/resolve/job-places';
import { inQuestion } from '../frame/in-question';
import { type Work, workOf } from '../timeline/work';
import { carriedOver } from './carried-witnesses';
import { type Earlier, headOf, judgedMeasure } from './judged-measure';
import { MeasuredStage, type Stage } from './stage';
import { tramOnly } from './tram';

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
export function inspected(asWritten: Job, chassis: Chassis): Inspection {
  const job = placedJob(asWritten, chassis);
  const work = workOf(job, chassis);
  const heldBack = job.broken || chassis.broken;
  const isTramOnly = tramOnly(job);
  const head = headOf(job, isTramOnly);
  const basis = { job, chassis, heldBack, head, isTramOnly, question: inQuestion(job, chassis, work) };
  const stages: Stage[] = [];
  let earlier: Earlier | null = null;
  /** Where the alignment that is carried on was last known to be right. */
  let known: Stage | null = null;
  job.timeline.forEach((measure, index) => {
    if (measure.kind !== 'measure') return;
    const underTension = work.tensionAt(index).size > 0;
    const judged = judgedMeasure(basis, measure, earlier, underTension);
    const plain = new MeasuredStage(measure, index, underTension, judged);
    const carried = known && carriedOver({ job, chassis, work, earlier: stages }, plain, known);
    const stage = carried ? new MeasuredStage(measure, index, underTension, judged, carried) : plain;
    if (judged.alignment !== null && measure.readings.some(hasNumbers)) {
      // the alignment as it was judged: what happened since is found anew for each stage
      earlier = { name: stage.name, alignment: judged.alignment };
      if (!carried || carried.confirmed) known = stage;
    }
    stages.push(stage);
  });
  return { job, chassis, stages, work, heldBack };
}
