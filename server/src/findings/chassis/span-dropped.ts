import type { Chassis, DroppedSpan } from '../../model/chassis';
import { fileName } from '../../model/file-name';
import type { Replacement } from '../../model/problem';
import { figure, lengthFigure, lengthText, mmPer } from '../../model/units';
import {
  entryInsertion,
  entryReplacement,
  itemInsertion,
  lineBreakOf,
  type TextEdit,
} from '../../text/edits';
import { entryOf, isNothing, offsetsOf, type TextTree } from '../../text/tree';
import { parseText } from '../../text/yaml/parse';
import type { Draft, Rule } from '../rule/rule';
import { spanLengthMm } from './listed-distance';

/** So many distances are named in a message; of more their number is told. */
const mostNamed = 4;

export const spanDropped: Rule = {
  name: 'chassis/span-dropped',
  severity: 'information',
  since: '0.2',
  failsCheck: 'always',
  page: {
    summary:
      'A point stands elsewhere than in the parent file, so distances that the parent lists to it are not taken over.',
    why: 'A listed distance was measured to the old place. Compared with the new place it makes a sound car look too long or too short, and somebody would pull it. Without a listed distance the positions of both ends give the reference.',
    example:
      'extends: ./marten-hatch.chassis.yaml       # lists rear-rail-tip.L to floor-rear.R as 1234.8\npoints:\n  rear-rail-tip: { both: [-1105, 512, 268] }   # the parent: [-1097, 512, 268]',
    exampleIn: { place: 'chassis' },
    mend: "List the distance of this body: from its sheet, or take the fix that writes what the positions give, and compare it with the sheet. Where the parent's distance holds here as well, the other fix keeps it on purpose. Nothing need be done where nobody reads that distance.",
    source: 'A rule of the program itself. The distance between two points by Pythagoras.',
  },
  ofChassis: ({ chassis }) => {
    // what is listed anew may stand in what cannot be read
    if (chassis.broken || chassis.droppedSpans.length === 0) return [];
    const byPoint = new Map<string, DroppedSpan[]>();
    for (const span of chassis.droppedSpans) {
      const { name } = chassis.points.get(span.movedId)!;
      byPoint.set(name, [...(byPoint.get(name) ?? []), span]);
    }
    const tree = parseText(chassis.chain[0].text);
    return [...byPoint].map(([name, spans]) => draftOf(name, spans, chassis, tree));
  },
};

function draftOf(name: string, spans: readonly DroppedSpan[], chassis: Chassis, tree: TextTree): Draft {
  const { unit } = chassis;
  const files = [...new Set(spans.map(({ origin }) => fileName(origin.uri)))].join(' and ');
  const named = spans
    .slice(0, mostNamed)
    .map(({ from, to, distanceMm }) => `${from} to ${to} (${lengthText(distanceMm, unit)})`);
  const more = spans.length > mostNamed ? ` and ${spans.length - mostNamed} more` : '';
  const it = spans.length === 1 ? 'it is' : 'they are';
  return {
    place: chassis.points.get(spans[0].movedId)!.origin.place,
    message:
      `${name} has a position of its own here, so the distance${spans.length === 1 ? '' : 's'} listed in ${files} ` +
      `do${spans.length === 1 ? 'es' : ''} not hold: ${named.join(', ')}${more}; ${it} judged by the positions`,
    related: spans
      .slice(0, mostNamed)
      .map(({ origin, from, to }) => ({ ...origin, message: `${from} to ${to} is listed here` })),
    replacements: fixesFor(spans, chassis, tree),
  };
}

function fixesFor(spans: readonly DroppedSpan[], chassis: Chassis, tree: TextTree): Replacement[] {
  const { unit, points } = chassis;
  const anew = spans.map((span) => {
    const ends = [span.from, span.to].map((id) => points.get(id)!.reference);
    return lineOf(span, lengthFigure(spanLengthMm(span, ends[0], ends[1]), unit), chassis);
  });
  const kept = spans.map((span) => lineOf(span, shortest(span.distanceMm / mmPer[unit]), chassis));
  const [what, old] =
    spans.length === 1
      ? ['the distance', 'the old distance']
      : [`${spans.length} distances`, 'the old distances'];
  return [
    { title: `Write ${what} anew, as the positions give ${spans.length === 1 ? 'it' : 'them'}`, lines: anew },
    { title: `Keep ${old} on purpose`, lines: kept },
  ].flatMap(({ title, lines }): Replacement[] => {
    const edit = insertionOf(tree, lines);
    // no block: offsets of the whole text
    return edit === null
      ? []
      : [{ title, place: { block: { start: 0 }, start: edit.start, end: edit.end }, text: edit.text }];
  });
}

function lineOf({ from, to, level, limits }: DroppedSpan, distance: string, { unit }: Chassis): string {
  const own = limits?.map((each) => shortest(each / mmPer[unit])) ?? null;
  const tolerance =
    own === null ? '' : `, tolerance: ${own[0] === `-${own[1]}` ? own[1] : `[${own.join(', ')}]`}`;
  return `{ from: ${from}, to: ${to}, distance: ${distance}${tolerance}${level ? ', level: true' : ''} }`;
}

/** Without the zeros at its end. */
const shortest = (value: number): string => String(Number(figure(value, 5)));

/** Lines more in the list of distances, which may not be there yet. */
function insertionOf(tree: TextTree, lines: readonly string[]): TextEdit | null {
  const { root } = tree;
  if (root?.kind !== 'map') return null;
  const nested = ['', ...lines.map((line) => `- ${line}`)];
  const entry = entryOf(root, 'spans');
  if (entry === undefined) return entryInsertion(tree, root, 'spans', nested);
  const list = entry.value;
  if (isNothing(list) || (list.kind === 'sequence' && list.items.length === 0))
    return entryReplacement(tree, root, entry, nested);
  if (list.kind !== 'sequence') return null;
  if (list.flow) {
    const { end } = offsetsOf(list.items[list.items.length - 1].place);
    return { start: end, end, text: lines.map((line) => `, ${line}`).join('') };
  }
  const first = itemInsertion(tree, list, lines.slice(0, 1));
  const rest = lines
    .slice(1)
    .map((line) => `${lineBreakOf(tree.text)}${' '.repeat(list.indent ?? 0)}- ${line}`);
  return first && { ...first, text: first.text + rest.join('') };
}
