import type { TextRange } from '../../findings/rule/finding';
import type { Verdict } from '../../inspection/alignment/verdict';
import type { Stage } from '../../inspection/job/stage';
import { derived } from '../../memory/derived';
import type { Chassis } from '../../model/chassis';
import type { Mention } from '../../model/job';
import { idsNamed } from '../../model/names';
import { type Node, offsetsOf, type Place, type ScalarNode } from '../../text/tree';
import type { Analysis } from '../../workspace/workspace';
import { mentionsOf } from '../mentions';

export const tokenTypes = ['point', 'part', 'number', 'unit'] as const;
/** A point's verdict where it was read; `provisional` in its stead where the base is not settled; `peak`: read under tension. */
export const tokenModifiers = [
  'within',
  'outside',
  'undecided',
  'unjudged',
  'provisional',
  'peak',
  'base',
] as const;

type TokenModifier = (typeof tokenModifiers)[number];

const none: readonly TokenModifier[] = [];
const controlPoint: readonly TokenModifier[] = ['base'];

/** A piece of one line, absolute offsets. */
interface Token extends TextRange {
  readonly type: (typeof tokenTypes)[number];
  readonly modifiers: readonly TokenModifier[];
}

/** What stands in a file, in text order, none over another. @param range only what it touches */
export function semanticTokens(analysis: Analysis, range?: TextRange): Token[] {
  const { tree } = analysis;
  const isMeant = ({ start, end }: TextRange): boolean =>
    !range || (start <= range.end && end >= range.start);
  const tokens: Token[] = [];
  const readings = analysis.kind === 'readings' ? (analysis.inspection?.stages ?? []) : [];
  const chassis = analysis.kind === 'settings' ? null : analysis.chassis;
  for (const stage of readings)
    if (isMeant(offsetsOf(stage.measure.place))) tokens.push(...readingTokens(stage, isMeant));
  const named = new Set(tokens.map(({ start }) => start));
  for (const { kind, id, place } of mentionsOf(analysis)) {
    const { start, end } = offsetsOf(place);
    if (named.has(start) || !isMeant({ start, end })) continue;
    const modifiers = kind === 'point' && isControlPoint(id, chassis) ? controlPoint : none;
    tokens.push({ start, end, type: kind, modifiers });
  }
  for (const { place, type } of figuresIn(tree.root)) {
    const { start, end } = offsetsOf(place);
    if (isMeant({ start, end })) tokens.push({ start, end, type, modifiers: none });
  }
  return separate(tokens, analysis.text);
}

function readingTokens(stage: Stage, isMeant: (range: TextRange) => boolean): Token[] {
  return stage.points.flatMap(({ reading, verdict, inBase }) => {
    const { start, end } = offsetsOf(reading.key);
    if (!isMeant({ start, end })) return [];
    return [{ start, end, type: 'point' as const, modifiers: modifiersOf(stage, verdict, inBase) }];
  });
}

/** A verdict that may be the wrong one is not shown as one. */
const modifiersOf = (
  { provisional, underTension }: Stage,
  verdict: Verdict,
  inBase: boolean,
): TokenModifier[] => [
  provisional ? 'provisional' : verdict,
  ...(underTension ? (['peak'] as const) : []),
  ...(inBase ? (['base'] as const) : []),
];

function isControlPoint(id: Mention['id'], chassis: Chassis | null): boolean {
  if (chassis === null) return false;
  const ids = idsNamed(id, chassis.points);
  return ids.length > 0 && ids.every((each) => chassis.points.get(each)!.base);
}

const quantity = /^([-+]?\d+(?:\.\d+)?)( *)(kN|N|C|s|min)$/;
const quantityKeys = new Set(['force', 'to', 'for']);

interface Figure {
  readonly place: Place;
  readonly type: 'number' | 'unit';
}

/** Numbers and units among the values. Each entry of the timeline is gone through once: its nodes stay the same while its text does. */
function figuresIn(root: Node | null): Figure[] {
  if (root?.kind !== 'map') return [];
  return root.entries.flatMap(({ key, value }) =>
    key.value === 'timeline' && value?.kind === 'sequence'
      ? value.items.flatMap(figuresOfEntry)
      : figuresOf(value, String(key.value)),
  );
}

const figuresOfEntry = derived((entry: Node) => figuresOf(entry, ''));

function figuresOf(root: Node | null, rootKey: string): Figure[] {
  const figures: Figure[] = [];
  const visit = (node: Node | null, key: string): void => {
    if (node?.kind === 'sequence') for (const item of node.items) visit(item, '');
    else if (node?.kind === 'map')
      for (const entry of node.entries) visit(entry.value, String(entry.key.value));
    else if (node?.plain) figures.push(...figuresOfScalar(node, key));
  };
  visit(root, rootKey);
  return figures;
}

function figuresOfScalar({ value, source, place }: ScalarNode, key: string): Figure[] {
  if (typeof value === 'number') return [{ place, type: 'number' }];
  if (key === 'units') return [{ place, type: 'unit' }];
  const found = quantityKeys.has(key) ? quantity.exec(source) : null;
  if (found === null || place.end - place.start !== source.length) return [];
  const [, number, blanks] = found;
  const numberEnd = place.start + number.length;
  return [
    { place: { ...place, end: numberEnd }, type: 'number' },
    { place: { ...place, start: numberEnd + blanks.length }, type: 'unit' },
  ];
}

/** In text order, and nothing over another or over lines, as aliases and quotes may be. A number has no line break. */
function separate(tokens: Token[], text: string): Token[] {
  tokens.sort((a, b) => a.start - b.start || a.end - b.end);
  let done = 0;
  return tokens.filter(({ start, end, type }) => {
    if (start < done || end <= start) return false;
    if (type !== 'number' && /[\r\n]/.test(text.slice(start, end))) return false;
    done = end;
    return true;
  });
}
