import type * as wire from '@framewright/schemas/wire';
import type { TextRange } from '../../findings/rule/finding';
import { standingOf } from '../../findings/standing';
import type { Verdict } from '../../inspection/alignment/verdict';
import { newestReleased, newestSpans } from '../../inspection/job/newest';
import { lengthFigure } from '../../model/units';
import { offsetsOf } from '../../text/tree';
import { offPhrase } from '../../wording/wording';
import { worstCertainty, worstPoint } from '../../wording/worst';
import type { Analysis, ChassisAnalysis, JobAnalysis } from '../../workspace/workspace';
import { chassisLink } from '../chassis-link';

/** A job in a line, with its worst row at offsets. */
export interface JobEntry extends Omit<wire.JobEntry, 'worst'> {
  readonly worst: { readonly id: string; readonly words: string; readonly range: TextRange } | null;
}

type FileEntry = JobEntry | wire.ChassisEntry;

/** One line of a list of files; null for what is neither job nor chassis. */
export function fileEntry(analysis: Analysis): FileEntry | null {
  if (analysis.kind === 'readings') return jobEntry(analysis);
  return analysis.kind === 'chassis' ? chassisEntry(analysis) : null;
}

function jobEntry(analysis: JobAnalysis): JobEntry {
  const { uri, job, inspection, settings, findings } = analysis;
  const counts: Record<Verdict, number> = { within: 0, outside: 0, undecided: 0, unjudged: 0 };
  const chassis = chassisLink('readings', uri, analysis.tree)?.uri ?? null;
  const base = {
    kind: 'job',
    uri,
    order: job.order,
    counts,
    worst: null,
    chassis,
    ...shownCounts(analysis),
  } as const;
  if (!inspection) return { ...base, state: 'no-chassis', stage: null, remaining: 0 };
  const newest = [...newestReleased(inspection).values()];
  for (const { judged } of newest) counts[judged.verdict]++;
  for (const { span } of newestSpans(inspection).values()) counts[span.verdict]++;
  const worst = worstPoint(newest.map(({ judged }) => judged));
  const { closed, passes, remaining, heldBack } = standingOf({ inspection, settings, findings });
  const stage = inspection.stages.at(-1)?.name ?? null;
  const state: wire.JobState = heldBack
    ? 'text-errors'
    : closed
      ? passes
        ? 'signed'
        : 'sign-off-fails'
      : stage === null
        ? 'unmeasured'
        : passes
          ? 'ready'
          : 'open';
  return {
    ...base,
    state,
    stage,
    remaining: heldBack ? 0 : remaining.length,
    worst: worst && {
      id: worst.judged.id,
      words: `${offPhrase(worst.axis, worst.deviation, worst.judged.point.side, job.unit)}${worstCertainty(worst, job.unit)}`,
      range: offsetsOf(worst.judged.reading.key),
    },
  };
}

function chassisEntry(analysis: ChassisAnalysis): wire.ChassisEntry {
  const { uri, chassis } = analysis;
  const points = [...chassis.points.values()];
  return {
    kind: 'chassis',
    uri,
    vehicle: chassis.vehicle,
    points: points.length,
    controlPoints: points.filter(({ base }) => base).length,
    ...shownCounts(analysis),
  };
}

function shownCounts({ findings }: Analysis): { errors: number; warnings: number } {
  const counts = { error: 0, warning: 0, information: 0 };
  for (const { severity, ignored } of findings) if (ignored === null) counts[severity]++;
  return { errors: counts.error, warnings: counts.warning };
}

interface PointEntry extends Omit<wire.PointLine, 'range'> {
  /** Offsets; null where it stands in a file that this one extends. */
  readonly range: TextRange | null;
}

/** The points of a chassis file, in its order. */
export const pointEntries = ({ uri, chassis }: ChassisAnalysis): PointEntry[] =>
  [...chassis.points.values()].map(({ id, reference, part, base, origin }) => ({
    id,
    position: positionWords(reference, chassis.unit),
    part,
    base,
    range: origin.uri === uri ? offsetsOf(origin.place) : null,
  }));

const positionWords = ([x, y, z]: readonly number[], unit: 'mm' | 'inch'): string => {
  const figure = (mm: number): string => lengthFigure(Math.abs(mm), unit).replace(/\.0+$/, '');
  const words = [
    `${figure(x)} ${x < 0 ? 'rearward' : 'forward'}`,
    ...(y === 0 ? ['centre'] : [`${figure(y)} ${y < 0 ? 'right' : 'left'}`]),
    `${figure(z)} ${z < 0 ? 'down' : 'up'}`,
  ];
  return words.join(', ');
};
