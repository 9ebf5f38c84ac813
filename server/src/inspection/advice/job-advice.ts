import { derived } from '../../memory/derived';
import type { Inspection } from '../job/inspect';
import type { Stage } from '../job/stage';
import { answered, type MeasuringAdvice } from './answer';
import { jobQuestion, type NoAdvice } from './job-question';

/** What to read so that every point of the scope can be decided (server/README.md, "Measuring advice"). */
export const adviceInStage = derived((stage: Stage, inspection: Inspection): MeasuringAdvice | NoAdvice =>
  advised(inspection, stage, null),
);

/** The same for a measure of which nothing is read yet. */
export const adviceAfresh = derived((inspection: Inspection): MeasuringAdvice | NoAdvice =>
  advised(inspection, null, null),
);

/** @param uncertaintyMm of further readings; null: of the job's instrument */
export function advised(
  inspection: Inspection,
  stage: Stage | null,
  uncertaintyMm: number | null,
): MeasuringAdvice | NoAdvice {
  const asked = jobQuestion(inspection, stage, {
    uncertaintyMm,
    witnesses: true,
    judged: null,
  });
  return typeof asked === 'string' ? asked : answered(asked);
}

/** The least that a new measure must read besides some parts to decide their points: what the next step waits for. */
export function adviceForParts(
  inspection: Inspection,
  partIds: readonly string[],
): MeasuringAdvice | NoAdvice {
  const judged = [...inspection.chassis.points.values()].filter(
    ({ part }) => part !== null && partIds.includes(part),
  );
  const asked = jobQuestion(inspection, null, { uncertaintyMm: null, witnesses: true, judged });
  return typeof asked === 'string' ? asked : answered(asked);
}

const work = new Set(['pull', 'relieve', 'release', 'section', 'replace', 'heat']);

/** The measure that still shows the car as it stands, to which rows can be added: the newest, where nothing was done since. */
export function stageToExtend({ stages, job }: Inspection): Stage | null {
  const newest = stages.at(-1);
  if (newest === undefined || newest.underTension) return null;
  return job.timeline.slice(newest.index + 1).some(({ kind }) => work.has(kind)) ? null : newest;
}
