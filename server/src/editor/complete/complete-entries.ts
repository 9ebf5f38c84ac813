import { nameOf } from '../../model/names';
import { plainOrQuoted } from '../../text/edits';
import type { Analysis, JobAnalysis } from '../../workspace/workspace';
import { idsToRead, titleAfter } from '../actions/next-measure-action';
import { pointDetail } from './complete-names';
import { type Abilities, type Completion, inPlace, inSnippet } from './completion-item';
import type { CursorContext } from './cursor-context';
import { pointsToRead } from './points-to-read';

/** Rows of `readings:`: the points that the body has and this measure lacks, in the order in which they are read. Null elsewhere. */
export function rowCompletions(
  analysis: Analysis,
  context: CursorContext,
  { snippets }: Abilities,
): Completion[] | null {
  const { role, path, siblings, above, hasColon } = context;
  if (analysis.kind !== 'readings' || role !== 'key' || path.join('/') !== 'timeline/-/readings') return null;
  const { chassis, job } = analysis;
  if (chassis === null) return otherRows(analysis, context);
  return pointsToRead(analysis, chassis, context.item?.start ?? null, above, siblings).map((point) => {
    const id = plainOrQuoted(point.id);
    const triple = snippets && !hasColon;
    return inPlace(context, {
      label: point.id,
      kind: 'point',
      text: triple ? `${id}: ${bracketed(job.axes)}` : hasColon ? id : `${id}: `,
      snippet: triple,
      detail: pointDetail(point, chassis),
      subject: { kind: 'point', name: point.id },
    });
  });
}

/** Without a body: what other measures of the job have. */
function otherRows({ job }: JobAnalysis, context: CursorContext): Completion[] {
  const ids = job.timeline.flatMap((entry) =>
    entry.kind === 'measure' ? entry.readings.map(({ id }) => id) : [],
  );
  const had = new Set(context.siblings);
  return [...new Set(ids)]
    .filter((id) => !had.has(id))
    .map((id) =>
      inPlace(context, { label: id, kind: 'point', text: context.hasColon ? id : `${plainOrQuoted(id)}: ` }),
    );
}

/** `[${1:forward}, ${2:left}, ${3:up}]`: places in brackets, each with the word for what belongs there. */
const bracketed = (words: readonly string[]): string =>
  `[${words.map((word, k) => `\${${k + 1}:${word}}`).join(', ')}]`;

const position = bracketed(['length', 'width', 'height']);

/** A reading, a position or a distance with places to fill. */
export function valueSnippets(
  analysis: Analysis,
  context: CursorContext,
  { snippets }: Abilities,
): Completion[] {
  if (!snippets || context.typed !== '' || context.index !== null) return [];
  const place = `${analysis.kind}/${context.path.join('/')}`;
  const offered = (label: string, text: string, detail: string): Completion[] => [
    inPlace(context, { label, kind: 'entry', text, snippet: true, detail }),
  ];
  if (
    analysis.kind === 'readings' &&
    context.role === 'value' &&
    /^readings\/timeline\/-\/readings\/[^/]+$/.test(place)
  )
    return offered('[ , , ]', bracketed(analysis.job.axes), 'one reading');
  if (context.role === 'key' && context.beginsItem && place === 'readings/timeline/-/spans/-')
    return offered('[ , , ]', bracketed(['from', 'to', 'distance']), 'one distance');
  if (context.role === 'value' && /^chassis\/points\/[^/]+$/.test(place))
    return [
      ...offered('{ both: [ , , ] }', `{ both: ${position}, part: $4 }`, 'a point on each side'),
      ...offered('{ centre: [ , , ] }', `{ centre: ${position}, part: $4 }`, 'a point near the centre plane'),
    ];
  if (context.role === 'value' && /^chassis\/points\/[^/]+\/(both|left|right|centre)$/.test(place))
    return offered('[ , , ]', position, 'length, width, height');
  return [];
}

/** A whole measure, at the dash of an entry of the timeline or on an empty line where one may begin. */
export function entryCompletions(
  analysis: Analysis,
  context: CursorContext,
  { snippets }: Abilities,
): Completion[] {
  const { path, role, beginsItem, hasColon, typed } = context;
  if (analysis.kind !== 'readings' || !snippets || role !== 'key' || hasColon) return [];
  const isAtDash = beginsItem && path.join('/') === 'timeline/-';
  const isBare = path.join('/') === 'timeline' && (typed === '' || typed === '-');
  const { inspection, job } = analysis;
  if (!inspection || (!isAtDash && !isBare)) return [];
  const ids = idsToRead(inspection);
  if (ids.length === 0) return [];
  const written = ids.map((id) => `${plainOrQuoted(id)}:`);
  const width = Math.max(...written.map((each) => each.length));
  // behind a dash the lines below stand one step deeper than the line; without one the dash comes first
  const rows = written.map(
    (each, i) => `      ${each.padEnd(width)} [$${3 * i + 2}, $${3 * i + 3}, $${3 * i + 4}]`,
  );
  const first = `measure: \${1:${inSnippet(titleAfter(job.timeline))}}`;
  const text = [isAtDash ? first : `- ${first}`, '  readings:', ...rows.map((row) => row.slice(2))].join(
    '\n',
  );
  const parts = new Set(ids.map(nameOf)).size;
  return [
    inPlace(context, {
      label: 'measure with every point to read',
      kind: 'entry',
      text,
      snippet: true,
      detail: `${ids.length} rows, ${parts} names`,
      subject: { kind: 'key', path: ['timeline', '-', 'measure'], entryKind: 'measure' },
    }),
  ];
}
