import {
  isTimelineKind,
  type JoinEntry,
  type MeasureEntry,
  observations,
  type SectionEntry,
  type TimelineKind,
  timelineKinds,
  timelineSchemas,
} from '@framewright/schemas';
import type { z } from 'zod';
import { derived } from '../../memory/derived';
import {
  entryOf,
  isNothing,
  type MapEntry,
  type MapNode,
  type Node,
  offsetsOf,
  textOf,
} from '../../text/tree';
import type { Join, Mention, RelieveOrRelease, Section, TimelineEntry } from '../job';
import { nearest } from '../names';
import type { Problem } from '../problem';
import { instrumentOf } from './instrument';
import { linesIn, mentionsIn, wordsOf } from './mentions';
import { secondsOf } from './part-from-text';
import { chainsOf, holdsOf } from './pull-from-text';
import { readingsOf, spanReadingsOf } from './readings';
import { checked } from './schema-check';
import { named } from './top-level';

type Report = (problem: Problem) => void;

/**
 * One entry of the timeline; null where nothing of it can be saved. Lengths become mm by `mm` per unit. A node that an edit left
 * alone gives the same entry again, so that what was concluded from it still holds.
 */
export function timelineEntry(written: Node, mm: number, report: Report): TimelineEntry | null {
  const { entry, problems } = entryIn(written, mm);
  problems.forEach(report);
  return entry;
}

const entryIn = derived((written: Node, mm: number) => {
  const problems: Problem[] = [];
  const entry = readEntry(written, mm, (problem) => problems.push(problem));
  return { entry, problems };
});

function readEntry(written: Node, mm: number, report: Report): TimelineEntry | null {
  if (written.kind !== 'map' || written.entries.length === 0) {
    report({ rule: 'text/wrong-type', place: written.place, message: notAnEntry(written) });
    return null;
  }
  const first = written.entries[0];
  const kind = kindOf(first, written, report);
  if (kind === null) return null;
  const node = textOf(first.key) === kind ? written : withKind(written, kind);
  const base = { place: written.place, keyPlace: first.key.place, note: textAt(node, 'note') };
  return readers[kind]({ node, base, mm, report });
}

/** An entry as it stands in the text. */
interface Written {
  readonly node: MapNode;
  /** What every entry has. */
  readonly base: Pick<TimelineEntry, 'place' | 'keyPlace' | 'note'>;
  /** Millimetres in one unit of the file. */
  readonly mm: number;
  readonly report: Report;
}

type Reader = (written: Written) => TimelineEntry | null;

/**
 * Holds an entry against the schema of its kind, and hands on its value. That is null where the schema can save nothing of it; the rest
 * is read even so: work that is lost would leave tension, or a renewed part, unseen.
 * @param byHand keys of rows of numbers, which do not pass through the schema
 */
const reader =
  <Schema extends z.ZodType>(
    kind: TimelineKind,
    schema: Schema,
    read: (written: Written, value: z.output<Schema> | null) => TimelineEntry | null,
    byHand: readonly string[] = [],
  ): Reader =>
  (written) => {
    const { node, base, report } = written;
    const told = withStartsInside(node, kind, (problem) =>
      report(isLocal(problem, node, kind) ? { ...problem, local: true } : problem),
    );
    return read(written, checked(schema, without(node, byHand), base.keyPlace, told));
  };

const readers: Readonly<Record<TimelineKind, Reader>> = {
  measure: reader(
    'measure',
    timelineSchemas.measure,
    (written, value) => ({ kind: 'measure', ...written.base, ...measureOf(written, value) }),
    ['readings', 'spans'],
  ),
  observe: reader('observe', timelineSchemas.observe, ({ node, base, mm }, value) => {
    // the word that was meant, so that the part beside it is read too
    const what = value?.observe ?? nearest(textAt(node, 'observe') ?? '', observations);
    if (what === undefined) return null;
    return {
      kind: 'observe',
      ...base,
      what,
      part: mentionAt(node, 'part'),
      atMm: inMm(value?.at, mm),
      answered: value?.answered ?? null,
    };
  }),
  pull: reader('pull', timelineSchemas.pull, ({ node, base, mm }) => ({
    kind: 'pull',
    ...base,
    title: textAt(node, 'pull') ?? '',
    part: mentionAt(node, 'part'),
    chains: chainsOf(node),
    ...holdsOf(node, mm),
    plan: linesIn(entryOf(node, 'plan')?.value),
  })),
  relieve: reader('relieve', timelineSchemas.relieve, (written) => relieveOrRelease(written, 'relieve')),
  release: reader('release', timelineSchemas.release, (written) => relieveOrRelease(written, 'release')),
  section: reader('section', timelineSchemas.section, ({ node, base, mm }, value) => {
    const part = mentionAt(node, 'section');
    return part && { kind: 'section', ...base, part, ...cutsIn(value, mm) };
  }),
  replace: reader('replace', timelineSchemas.replace, ({ node, base }) => {
    const part = mentionAt(node, 'replace');
    return part && { kind: 'replace', ...base, part };
  }),
  join: reader(
    'join',
    timelineSchemas.join,
    ({ node, base }, value) => mentionAt(node, 'join') && { kind: 'join', ...base, ...joinIn(node, value) },
  ),
  heat: reader('heat', timelineSchemas.heat, ({ node, base }, value) => {
    const part = mentionAt(node, 'heat');
    const toCelsius = value?.to === undefined ? null : Number.parseFloat(value.to);
    const forSeconds = value?.for === undefined ? null : secondsOf(value.for);
    return part && { kind: 'heat', ...base, part, toCelsius, forSeconds };
  }),
  note: reader('note', timelineSchemas.note, ({ node, base }) => ({
    kind: 'note',
    ...base,
    text: textAt(node, 'note') ?? '',
  })),
};

function textAt(node: MapNode, key: string): string | null {
  const found = entryOf(node, key)?.value;
  return found?.kind === 'scalar' && !isNothing(found) ? textOf(found) : null;
}

const mentionAt = (node: MapNode, key: string): Mention | null =>
  mentionsIn(entryOf(node, key)?.value)[0] ?? null;

const inMm = (length: number | undefined, mm: number): number | null =>
  length === undefined ? null : length * mm;

/** Keys that no figure, no base, no tension and no renewal follows from: a slip in one of them leaves the rest of the job as it is. */
const localKeys: Partial<Record<TimelineKind, readonly string[]>> = {
  measure: ['by', 'at', 'summary', 'note'],
  pull: ['force', 'hold', 'plan', 'note'],
};

function isLocal({ place }: Problem, node: MapNode, kind: TimelineKind): boolean {
  const keys = localKeys[kind] ?? ['note'].filter((key) => key !== kind);
  const chains = entryOf(node, 'chains')?.value;
  const maps = chains?.kind === 'sequence' ? chains.items : chains ? [chains] : [];
  const entries = [...keys.map((key) => entryOf(node, key)), ...maps.map((chain) => entryOf(chain, 'force'))];
  const at = offsetsOf(place);
  return entries.some((entry) => {
    if (entry === undefined) return false;
    const { start, end } = offsetsOf(entry.place);
    return at.start >= start && at.end <= end;
  });
}

/** A key that begins an entry, in the middle of another one: its dash is missing. */
function withStartsInside(node: MapNode, kind: TimelineKind, report: Report): Report {
  return (problem) => {
    const start =
      problem.rule === 'text/unknown-key'
        ? node.entries.slice(1).find(({ key }) => key.place === problem.place && isTimelineKind(textOf(key)))
        : undefined;
    report(
      start === undefined
        ? named(problem, kind)
        : {
            ...problem,
            message: `\`${textOf(start.key)}\` begins a new entry: put “- ” before it`,
            replacements: undefined,
          },
    );
  };
}

const notAnEntry = (node: Node): string => {
  const begins = `an entry begins with what was done: ${timelineKinds.join(', ')}`;
  if (node.kind !== 'scalar' || isNothing(node)) return begins;
  const word = textOf(node).split(/\s/)[0].replace(/:$/, '');
  return isTimelineKind(word) ? `write it with a colon: \`${word}: …\`` : begins;
};

/** The kind is the first key; a mistyped one gets the nearest. */
function kindOf(first: MapEntry, node: MapNode, report: Report): TimelineKind | null {
  const key = textOf(first.key);
  const later = node.entries.map((entry) => textOf(entry.key)).find(isWork);
  if (isTimelineKind(key) && (key !== 'note' || !later)) return key;
  const meant = later ? undefined : nearest(key, timelineKinds);
  const { place } = first.key;
  report({
    rule: 'text/unknown-key',
    place,
    message: later
      ? `an entry begins with what was done: \`${later}\` belongs first`
      : `\`${key}\` is not a timeline entry${meant ? `; did you mean \`${meant}\`?` : `: ${timelineKinds.join(', ')}`}`,
    replacements: meant ? [{ title: `Change to ${meant}`, place, text: meant }] : undefined,
  });
  return later ?? meant ?? null;
}

const isWork = (word: string): word is Exclude<TimelineKind, 'note'> =>
  word !== 'note' && isTimelineKind(word);

/** The entry as it was meant: a kind that stands later comes first, a mistyped first key is the kind. */
function withKind(node: MapNode, kind: TimelineKind): MapNode {
  const later = node.entries.find((entry) => textOf(entry.key) === kind);
  if (later) return { ...node, entries: [later, ...node.entries.filter((entry) => entry !== later)] };
  const [{ key, value, place }, ...rest] = node.entries;
  return { ...node, entries: [{ key: { ...key, value: kind, source: kind }, value, place }, ...rest] };
}

const without = (node: MapNode, keys: readonly string[]): MapNode => ({
  ...node,
  entries: node.entries.filter((entry) => !keys.includes(textOf(entry.key))),
});

function measureOf({ node, mm, report }: Written, value: MeasureEntry | null) {
  const conditions = entryOf(node, 'conditions')?.value;
  return {
    name: value?.measure ?? '',
    by: value?.by ?? null,
    at: value?.at ?? null,
    setUp: value?.['set-up'] ?? null,
    instrument: value?.instrument ? instrumentOf(value.instrument, entryOf(node, 'instrument'), mm) : null,
    conditions: value?.conditions ? wordsOf(conditions) : null,
    readings: readingsOf(entryOf(node, 'readings'), mm, report),
    spans: spanReadingsOf(entryOf(node, 'spans'), mm, report),
    summary: linesIn(entryOf(node, 'summary')?.value),
  };
}

function relieveOrRelease({ node, base }: Written, kind: RelieveOrRelease['kind']): RelieveOrRelease | null {
  const value = entryOf(node, kind)?.value;
  const parts = mentionsIn(value);
  if (parts.length === 0) return null;
  return { kind, ...base, parts: parts.some(({ id }) => id === 'all') ? 'all' : parts };
}

function cutsIn(value: SectionEntry | null, mm: number): Pick<Section, 'cutsMm' | 'beyond'> {
  const cuts = value?.at === undefined ? [] : [value.at].flat();
  return { cutsMm: cuts.map((cut) => cut * mm), beyond: value?.beyond ?? null };
}

function joinIn(node: MapNode, value: JoinEntry | null): Pick<Join, 'parts' | 'how' | 'to'> {
  const to = entryOf(node, 'to');
  return {
    parts: mentionsIn(entryOf(node, 'join')?.value),
    how: value?.with === undefined ? null : [value.with].flat(),
    to: to === undefined ? null : mentionsIn(to.value),
  };
}
