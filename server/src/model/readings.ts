import type { Vec3 } from '../geometry/vector';
import type { MapEntry, Node } from '../text/tree';
import type { Reading, SpanReading } from './job';
import { nearest } from './names';
import { writtenNumber } from './numbers-as-written';
import type { Problem } from './problem';
import { tripleOf } from './triple';

type Report = (problem: Problem) => void;

/** The rows of a `readings:` block. A row that is wrong is reported and left out. */
export function readingsOf(entry: MapEntry | undefined, mm: number, report: Report): Reading[] {
  const rows = entry?.value;
  if (!rows || isNothing(rows)) return [];
  if (rows.kind !== 'map') {
    report({ rule: 'text/wrong-type', place: rows.place, message: '`readings`: rows of `point: [number, number, number]` belong here' });
    return [];
  }
  return rows.entries.flatMap((row) => readingOf(row, mm, report) ?? []);
}

const isNothing = (node: Node): boolean => node.kind === 'scalar' && node.value === null;

const what = 'a reading is three numbers, a list of such repeats, or unreachable';

function readingOf({ key, value }: MapEntry, mm: number, report: Report): Reading | null {
  const id = String(key.value);
  if (value === null || isNothing(value)) {
    report({ rule: 'text/wrong-type', place: key.place, message: `nothing is given for ${id}: ${what}` });
    return null;
  }
  const base = { id, key: key.place, value: value.place };
  if (value.kind === 'scalar') {
    if (isUnreachable(value, report)) return { ...base, triplesMm: [], unreachable: true };
    return null;
  }
  if (value.kind === 'map') {
    report({ rule: 'text/wrong-type', place: value.place, message: what });
    return null;
  }
  const repeated = value.items.length > 0 && value.items.every((item) => item.kind === 'sequence');
  const triples = (repeated ? value.items : [value]).flatMap((item) => {
    const triple = tripleOf(item, what, report);
    return triple === null ? [] : [[triple[0] * mm, triple[1] * mm, triple[2] * mm] as Vec3];
  });
  return triples.length === 0 ? null : { ...base, triplesMm: triples, unreachable: false };
}

function isUnreachable(value: Node & { kind: 'scalar' }, report: Report): boolean {
  const word = String(value.value);
  if (word === 'unreachable') return true;
  const meant = nearest(word, ['unreachable']);
  report({
    rule: 'text/wrong-type',
    place: value.place,
    message: meant ? `did you mean ${meant}?` : `${value.source.trim()}: ${what}`,
    replacements: meant ? [{ title: `Change to ${meant}`, place: value.place, text: meant }] : undefined,
  });
  return false;
}

const whatSpan = 'a span is [point, point, distance]';

/** The list of a `spans:` block in a measure. */
export function spanReadingsOf(entry: MapEntry | undefined, mm: number, report: Report): SpanReading[] {
  const list = entry?.value;
  if (!list || isNothing(list)) return [];
  if (list.kind !== 'sequence') {
    report({ rule: 'text/wrong-type', place: list.place, message: `\`spans\`: a list belongs here; ${whatSpan}` });
    return [];
  }
  return list.items.flatMap((item) => spanReadingOf(item, mm, report) ?? []);
}

function spanReadingOf(node: Node, mm: number, report: Report): SpanReading | null {
  const wrong = () => {
    report({ rule: 'text/wrong-type', place: node.place, message: whatSpan });
    return null;
  };
  if (node.kind !== 'sequence' || node.items.length !== 3) return wrong();
  const [from, to, distance] = node.items;
  if (from.kind !== 'scalar' || to.kind !== 'scalar') return wrong();
  const base = {
    from: String(from.value),
    to: String(to.value),
    fromPlace: from.place,
    toPlace: to.place,
    place: node.place,
  };
  if (distance.kind === 'scalar' && distance.value === 'unreachable') return { ...base, distancesMm: [], unreachable: true };
  const distances = (distance.kind === 'sequence' ? distance.items : [distance]).flatMap((item) => {
    const written = writtenNumber(item);
    if (written.value !== null && written.value > 0) return [written.value * mm];
    const message = written.value === null ? written.message : 'a distance is more than 0';
    const suggestion = written.value === null ? written.suggestion : undefined;
    report({
      rule: 'text/wrong-type',
      place: item.place,
      message,
      replacements: suggestion ? [{ title: `Write ${suggestion}`, place: item.place, text: suggestion }] : undefined,
    });
    return [];
  });
  return distances.length === 0 ? null : { ...base, distancesMm: distances, unreachable: false };
}
