import type { TextRange } from '../../findings/rule/finding';
import type { Inspection } from '../../inspection/job/inspect';
import { readingOrder } from '../../inspection/job/reading-order';
import { pointsInScope } from '../../inspection/job/scope';
import { tramOnly } from '../../inspection/job/tram';
import type { TimelineEntry } from '../../model/job';
import { itemInsertion, plainOrQuoted } from '../../text/edits';
import { entryOf } from '../../text/tree';
import type { JobAnalysis } from '../../workspace/workspace';
import { onFirstLine, overlaps } from '../places';
import { timelineNode } from '../timeline-node';
import type { Action, Moment } from './code-action';

/**
 * *Insert next measure*: at the end of the timeline, with a row for each point to judge and each control point. The rows are
 * comments until they are typed: a point that was not read yet is no mistake, and nothing of the job is held back meanwhile.
 */
export function nextMeasureActions(analysis: JobAnalysis, range: TextRange, { today }: Moment): Action[] {
  const { inspection, tree, job } = analysis;
  const timeline = timelineNode(tree.root);
  if (!inspection || !timeline || job.signOff || tramOnly(job) || !isAsked(analysis, range)) return [];
  const ids = idsToRead(inspection);
  if (ids.length === 0) return [];
  const lines = () => {
    const names = ids.map((id) => `${plainOrQuoted(id)}:`);
    const width = Math.max(...names.map((name) => name.length));
    return [
      `measure: ${plainOrQuoted(titleAfter(job.timeline))}`,
      `at: ${today}`,
      'readings:             # remove the # of a row when you read its point',
      ...names.map((name) => `  # ${name.padEnd(width)} [ , , ]`),
    ];
  };
  const edit = itemInsertion(tree, timeline, lines());
  if (edit === null) return [];
  return [
    {
      title: 'Insert next measure',
      kind: 'refactor.rewrite',
      edits: [edit],
      preferred: false,
      mends: null,
      reveals: true as const,
    },
  ];
}

/** On the newest measure, on what was done since, and on the key of the timeline. */
function isAsked({ inspection, job, tree, text }: JobAnalysis, range: TextRange): boolean {
  const newest = inspection?.stages.at(-1);
  const key = entryOf(tree.root, 'timeline')?.key.place;
  if (key && onFirstLine(key, text, range)) return true;
  return job.timeline.slice(newest?.index ?? 0).some(({ place }) => overlaps(place, range));
}

/** Points to judge and control points: those of earlier released stages in their order, newest stage first, then that of reading. */
export function idsToRead(inspection: Inspection): string[] {
  const { chassis, stages } = inspection;
  const wanted = new Set(pointsInScope(inspection));
  for (const { id, base } of chassis.points.values()) if (base) wanted.add(id);
  const read = [...stages]
    .reverse()
    .filter(({ underTension }) => !underTension)
    .flatMap(({ measure }) => measure.readings.map(({ id }) => id));
  return [...new Set([...read, ...readingOrder(chassis)])].filter((id) => wanted.has(id));
}

const ordinals = [
  'first',
  'second',
  'third',
  'fourth',
  'fifth',
  'sixth',
  'seventh',
  'eighth',
  'ninth',
  'tenth',
];

/** What the next measure follows: the pull, cut or part that came last, and whether the pull is still on. */
export function titleAfter(timeline: readonly TimelineEntry[]): string {
  const since = timeline.slice(timeline.findLastIndex(({ kind }) => kind === 'measure') + 1);
  const last = since.findLast(({ kind }) =>
    ['pull', 'release', 'section', 'replace', 'join', 'heat'].includes(kind),
  );
  const pulls = timeline.filter(({ kind }) => kind === 'pull').length;
  switch (last?.kind) {
    case 'pull':
      return 'under load';
    case 'release':
      return `after ${ordinals[pulls - 1] ?? 'the last'} pull`;
    case 'section':
      return `after sectioning ${last.part.id}`;
    case 'replace':
      return `after replacing ${last.part.id}`;
    case 'join':
      return `after joining ${last.parts.map(({ id }) => id).join(', ')}`;
    case 'heat':
      return `after heating ${last.part.id}`;
    default:
      return timeline.some(({ kind }) => kind === 'measure') ? 'measured again' : 'as received';
  }
}
