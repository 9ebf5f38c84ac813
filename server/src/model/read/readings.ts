import { readingWords } from '@framewright/schemas';
import type { Vec3 } from '../../geometry/vector';
import {
  isNothing,
  type MapEntry,
  type Node,
  type Place,
  type ScalarNode,
  type SequenceNode,
  textOf,
} from '../../text/tree';
import { TripleRow } from '../../text/yaml/triple-row';
import type { Reading, SpanReading } from '../job';
import { nearest } from '../names';
import type { Problem } from '../problem';
import { type TypedTriple, typedTriples } from '../typed-numbers';
import { isUsable } from './numbers-as-written';
import { numberOf, tripleOf } from './triple';

type Report = (problem: Problem) => void;
type ReadingWord = (typeof readingWords)[number];
const rule = 'text/wrong-type';

/** The rows of a `readings:` block. A row that is wrong is reported and left out. */
export function readingsOf(entry: MapEntry | undefined, mm: number, report: Report): Reading[] {
  const rows = entry?.value;
  if (!rows || isNothing(rows)) return [];
  if (rows.kind !== 'map') {
    report({
      rule,
      place: rows.place,
      message: '`readings`: rows of `point: [number, number, number]` belong here',
    });
    return [];
  }
  const readings: Reading[] = [];
  for (const row of rows.entries) {
    const reading = (row instanceof TripleRow && readingOfRow(row, mm)) || readingOf(row, mm, report);
    if (reading) readings.push(reading);
  }
  return readings;
}

/** A reading of a row in the plainest writing; its places and digits are made when somebody asks for them. */
class RowReading implements Reading {
  readonly id: string;
  readonly unreachable = false;
  readonly asBefore = false;

  constructor(
    private readonly row: TripleRow,
    readonly triplesMm: readonly Vec3[],
  ) {
    this.id = row.name;
  }

  get key(): Place {
    return this.row.keyPlace;
  }
  get value(): Place {
    return this.row.valuePlace;
  }
  get typed(): readonly TypedTriple[] | null {
    return typedTriples(this.row.value);
  }
  get hasPlainKey(): boolean {
    return true;
  }
}

/** A reading of a row in any other writing. */
class NodeReading implements Reading {
  readonly id: string;

  constructor(
    private readonly keyNode: ScalarNode,
    private readonly valueNode: Node,
    readonly triplesMm: readonly Vec3[],
    private readonly word: ReadingWord | null,
  ) {
    this.id = textOf(keyNode);
  }

  get unreachable(): boolean {
    return this.word === 'unreachable';
  }
  get asBefore(): boolean {
    return this.word === 'as-before';
  }

  get key(): Place {
    return this.keyNode.place;
  }
  get value(): Place {
    return this.valueNode.place;
  }
  get typed(): readonly TypedTriple[] | null {
    const typed = typedTriples(this.valueNode);
    return typed?.length === this.triplesMm.length ? typed : null;
  }
  get hasPlainKey(): boolean {
    return this.keyNode.plain && !this.keyNode.alias;
  }
}

/** Null where a number is not to be used, which is then said in the general way. */
function readingOfRow(row: TripleRow, mm: number): Reading | null {
  const { triple } = row;
  return isUsable(triple[0]) && isUsable(triple[1]) && isUsable(triple[2])
    ? new RowReading(row, [inMm(triple, mm)])
    : null;
}

const what = 'a reading is three numbers, a list of such repeats, unreachable or as-before';

function readingOf({ key, value }: MapEntry, mm: number, report: Report): Reading | null {
  if (isNothing(value)) {
    report({ rule, place: key.place, message: `nothing is given for ${textOf(key)}: ${what}` });
    return null;
  }
  if (value.kind === 'scalar') {
    const word = wordIn(value, readingWords, report);
    return word && new NodeReading(key, value, [], word);
  }
  if (value.kind !== 'sequence') {
    report({ rule, place: value.place, message: what });
    return null;
  }
  const repeated = value.items.some((item) => item.kind === 'sequence');
  if (!repeated) {
    const triple = tripleOf(value, what, report);
    return triple && new NodeReading(key, value, [inMm(triple, mm)], null);
  }
  const triples = value.items.flatMap((item) => {
    const triple = tripleOf(item, 'one of the repeats', report);
    return triple === null ? [] : [inMm(triple, mm)];
  });
  return triples.length === 0 ? null : new NodeReading(key, value, triples, null);
}

const inMm = (triple: Vec3, mm: number): Vec3 =>
  mm === 1 ? triple : [triple[0] * mm, triple[1] * mm, triple[2] * mm];

/** The word that stands for a reading; null where none does, which is reported. */
function wordIn<Word extends string>(node: ScalarNode, words: readonly Word[], report: Report): Word | null {
  const word = textOf(node);
  const found = words.find((each) => each === word);
  if (found !== undefined) return found;
  const { place } = node;
  const meant = /\d/.test(word) ? undefined : nearest(word, words);
  if (meant)
    report({
      rule,
      place,
      message: `${word}: did you mean ${meant}?`,
      replacements: [{ title: `Change to ${meant}`, place, text: meant }],
    });
  else tripleOf(node, what, report);
  return null;
}

const whatSpan = 'a span is [point, point, distance]';

/** The list of a `spans:` block in a measure. */
export function spanReadingsOf(entry: MapEntry | undefined, mm: number, report: Report): SpanReading[] {
  const list = entry?.value;
  if (!list || isNothing(list)) return [];
  if (list.kind !== 'sequence') {
    report({ rule, place: list.place, message: `\`spans\`: a list belongs here; ${whatSpan}` });
    return [];
  }
  // one span written without its dash
  const [first] = list.items;
  if (list.flow && first?.kind === 'scalar' && !isNothing(first)) {
    const text = '[[…], […]]';
    report({
      rule,
      place: list.place,
      message: `\`spans\`: a list of spans belongs here, each on a line behind a dash or as ${text}; ${whatSpan}`,
    });
    return [];
  }
  return list.items.flatMap((item) => spanReadingOf(item, mm, report) ?? []);
}

function spanReadingOf(node: Node, mm: number, report: Report): SpanReading | null {
  if (node.kind !== 'sequence') {
    report({
      rule,
      place: node.place,
      message: isNothing(node) ? `nothing is given here: ${whatSpan}` : whatSpan,
    });
    return null;
  }
  if (node.items.length !== 3) {
    report(wrongLength(node));
    return null;
  }
  const [from, to, distance] = node.items;
  if (from.kind !== 'scalar' || to.kind !== 'scalar' || isNothing(from) || isNothing(to)) {
    const place = from.kind !== 'scalar' || isNothing(from) ? from.place : to.place;
    report({ rule, place, message: `a point belongs here: ${whatSpan}` });
    return null;
  }
  const base = {
    from: textOf(from),
    to: textOf(to),
    fromPlace: from.place,
    toPlace: to.place,
    place: node.place,
  };
  if (distance.kind === 'scalar' && distance.value === 'unreachable')
    return { ...base, distancesMm: [], unreachable: true };
  const distances = (distance.kind === 'sequence' ? distance.items : [distance]).flatMap((item) => {
    if (item.kind === 'scalar' && /^[a-z]+$/i.test(item.source) && nearest(item.source, ['unreachable'])) {
      wordIn(item, ['unreachable'], report);
      return [];
    }
    const value = numberOf(item, report);
    if (value !== null && value <= 0)
      report({ rule, place: item.place, message: `a distance is more than 0, not ${value}` });
    return value !== null && value > 0 ? [value * mm] : [];
  });
  if (distance.kind === 'sequence' && distance.items.length === 0)
    report({ rule, place: distance.place, message: 'the list of repeats is empty' });
  return distances.length === 0 ? null : { ...base, distancesMm: distances, unreachable: false };
}

/** `[a, b, 1399,7]` is four things: the comma inside the distance made two of it. */
function wrongLength({ items, place }: SequenceNode): Problem {
  const sources = items.map((item) => (item.kind === 'scalar' ? item.source.trim() : '?'));
  const [from, to, whole, rest] = sources;
  const meant =
    items.length !== 4 || !/^\d+$/.test(whole)
      ? []
      : /^\d{3}\.\d+$/.test(rest)
        ? [whole + rest]
        : /^\d{3}$/.test(rest) && whole.length <= 3
          ? [whole + rest, `${whole}.${rest}`]
          : /^\d+$/.test(rest)
            ? [`${whole}.${rest}`]
            : [];
  if (meant.length === 0) return { rule, place, message: whatSpan };
  const texts = meant.map((distance) => `[${from}, ${to}, ${distance}]`);
  return {
    rule,
    place,
    message: `four values instead of three: a comma inside the distance? Write ${texts.join(' or ')}`,
    replacements: texts.map((text) => ({ title: `Write ${text}`, place, text })),
  };
}
