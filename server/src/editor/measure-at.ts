import type { TextRange } from '../findings/rule/finding';
import type { Measure } from '../model/job';
import type { JobAnalysis } from '../workspace/workspace';
import { overlaps } from './places';

/** The measures of a job, in the order of the work. */
const measuresOf = ({ job }: JobAnalysis): Measure[] =>
  job.timeline.filter((entry): entry is Measure => entry.kind === 'measure');

/** The measure that a range touches; null where it touches none. */
export const measureAt = (analysis: JobAnalysis, range: TextRange): Measure | null =>
  measuresOf(analysis).find((measure) => overlaps(measure.place, range)) ?? null;
