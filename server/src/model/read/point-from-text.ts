import { type PointEntry, pointSchema, type SourceEntry } from '@framewright/schemas';
import { entryOf, type MapEntry, type Node, offsetsOf, type Place } from '../../text/tree';
import type { Source } from '../chassis';
import type { PointSheet } from '../chassis-sheet';
import type { Problem } from '../problem';
import { axisOf, type SheetNumbers } from '../sheet-axes';
import { plainPoint, positionKeys, positionsUnder } from './plain-point';
import { checked } from './schema-check';
import { limitsOf } from './tolerances';
import { named } from './top-level';
import { tripleOf } from './triple';

type Report = (problem: Problem) => void;

interface PointRead {
  readonly point: PointSheet | null;
  /** Everything that its readings are judged by could be read. */
  readonly whole: boolean;
}

export const nothingRead: PointRead = { point: null, whole: false };

/** One point as written. */
export function pointSheet(name: string, entry: MapEntry, numbers: SheetNumbers, report: Report): PointRead {
  const plain = plainPoint(name, entry, numbers);
  return plain === null ? judgedPoint(name, entry, numbers, report) : { point: plain, whole: true };
}

/** One point in any writing, held against its schema. */
export function judgedPoint(name: string, entry: MapEntry, numbers: SheetNumbers, report: Report): PointRead {
  const { positions, faulty } = positionsOf(entry.value, numbers, report);
  // the rows of numbers are judged already: the schema need not say it a second time
  const judged = faulty ? positionKeys.flatMap((key) => placesUnder(entryOf(entry.value, key))) : [];
  const quiet = new Set<Place>(faulty ? [...judged, entry.key.place] : []);
  const limits = ['tolerance', 'uncertainty', 'source']
    .flatMap((key) => entryOf(entry.value, key)?.place ?? [])
    .map(offsetsOf);
  let unjudged = false;
  const value = checked(pointSchema, entry.value, entry.key.place, (problem) => {
    if (quiet.has(problem.place)) return;
    const at = offsetsOf(problem.place).start;
    if (limits.some(({ start, end }) => at >= start && at < end)) unjudged = true;
    report(named(problem, name));
  });
  // a point that would be judged by other limits than were written is no point; nor is one with two positions
  if (unjudged || positions.length === 0 || (value === null && !faulty)) return nothingRead;
  const uncertainty = value?.uncertainty ?? value?.source?.uncertainty;
  const point: PointSheet = {
    name,
    positions: withoutConflict(positions),
    part: value?.part ?? null,
    partPlace: entryOf(entry.value, 'part')?.value?.place ?? null,
    base: value?.base ?? false,
    limits: limitsOf(value?.tolerance, numbers),
    fixing: value?.fixing ?? null,
    ...uncertaintyOf(uncertainty, numbers.mm),
    source: value?.source ? sourceOf(value.source) : null,
    place: entry.key.place,
  };
  return { point, whole: !faulty };
}

/** One for all axes, or each of its own; then the largest is the one where one is needed. */
function uncertaintyOf(
  written: PointEntry['uncertainty'],
  mm: number,
): Pick<PointSheet, 'uncertaintyMm' | 'uncertaintyByAxisMm'> {
  if (written === undefined) return { uncertaintyMm: null, uncertaintyByAxisMm: null };
  if (typeof written === 'number') return { uncertaintyMm: written * mm, uncertaintyByAxisMm: null };
  const { length, width, height } = written;
  return {
    uncertaintyMm: Math.max(length, width, height) * mm,
    uncertaintyByAxisMm: [length * mm, width * mm, height * mm],
  };
}

type Position = PointSheet['positions'][number];

/** The positions that can be read; `faulty` where one cannot. */
function positionsOf(
  node: Node | null,
  numbers: SheetNumbers,
  report: Report,
): { positions: Position[]; faulty: boolean } {
  const positions: Position[] = [];
  let faulty = false;
  for (const key of positionKeys) {
    const found = entryOf(node, key);
    if (found === undefined) continue;
    const triple = tripleOf(found.value, wordsOf(numbers), report);
    if (triple === null || found.value === null) {
      faulty = true;
      if (found.value === null)
        report({
          rule: 'text/wrong-type',
          place: found.key.place,
          message: `nothing is given for \`${key}\``,
        });
      continue;
    }
    positions.push(...positionsUnder(key, triple, found.value, numbers));
  }
  return { positions, faulty };
}

const words = ['length', 'width', 'height'] as const;

/** What the three numbers are, in the order of the file. */
const wordsOf = ({ axes }: SheetNumbers): string =>
  `[${axes.map((direction) => words[axisOf(direction)]).join(', ')}]`;

function placesUnder(entry: MapEntry | undefined): Place[] {
  if (!entry) return [];
  const { value } = entry;
  const inner = value?.kind === 'sequence' ? value.items.map((item) => item.place) : [];
  return [entry.key.place, ...(value ? [value.place] : []), ...inner];
}

/** The first position of each side; a centre point has no sides. */
function withoutConflict(positions: PointSheet['positions']): PointSheet['positions'] {
  const kept = positions.filter((each, i) => positions.findIndex((other) => other.side === each.side) === i);
  return kept.some((each) => each.side !== null) ? kept.filter((each) => each.side !== null) : kept;
}

export const sourceOf = ({ kind, reference, date }: SourceEntry): Source => ({
  kind,
  reference: reference ?? null,
  date: date ?? null,
});
