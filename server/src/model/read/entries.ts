import {
  answerSchema,
  joiningsOrOne,
  observations,
  sectionSchema,
  type TimelineKind,
  timelineKinds,
  timelineSchemas,
} from '@framewright/schemas';
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
import type { Answer, Join, Mention, Observe, RelieveOrRelease, Section, TimelineEntry } from '../job';
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
  // rows of numbers do not pass through the schema
  const byHand = kind === 'measure' ? ['readings', 'spans'] : [];
  const value = checked(
    timelineSchemas[kind],
    without(node, byHand),
    first.key.place,
    withStartsInside(node, kind, (problem) =>
      report(isLocal(problem, node, kind) ? { ...problem, local: true } : problem),
    ),
  ) as Record<string, unknown> | null;
  const text = (key: string): string | null => {
    const found = entryOf(node, key)?.value;
    return found?.kind === 'scalar' && !isNothing(found) ? textOf(found) : null;
  };
  // though something beside it be wrong: work that is lost would leave tension, or a renewed part, unseen
  const mention = (key: string): Mention | null => mentionsIn(entryOf(node, key)?.value)[0] ?? null;
  const base = { place: written.place, keyPlace: first.key.place, note: text('note') };
  const atMm = typeof value?.at === 'number' ? value.at * mm : null;
  const part = mention(kind);
  switch (kind) {
    case 'measure':
      return { kind, ...base, ...measureOf(node, value ?? {}, mm, report) };
    case 'observe': {
      // the word that was meant, so that the part beside it is read too
      const what = value?.observe ?? nearest(text('observe') ?? '', observations);
      if (typeof what !== 'string') return null;
      return {
        kind,
        ...base,
        what: what as Observe['what'],
        part: mention('part'),
        atMm,
        answered: answerIn(value),
      };
    }
    case 'pull':
      return {
        kind,
        ...base,
        title: text('pull') ?? '',
        part: mention('part'),
        chains: chainsOf(node),
        ...holdsOf(node, mm),
        plan: linesIn(entryOf(node, 'plan')?.value),
      };
    case 'relieve':
    case 'release':
      return part === null ? null : { kind, ...base, parts: partsOrAll(node, kind) };
    case 'section':
      return part === null ? null : { kind, ...base, part, ...cutsIn(value, mm) };
    case 'replace':
      return part === null ? null : { kind, ...base, part };
    case 'join':
      return part === null ? null : { kind, ...base, ...joinIn(node, value) };
    case 'heat': {
      if (part === null) return null;
      const toCelsius = typeof value?.to === 'string' ? Number.parseFloat(value.to) : null;
      return {
        kind,
        ...base,
        part,
        toCelsius,
        forSeconds: typeof value?.for === 'string' ? secondsOf(value.for) : null,
      };
    }
    case 'note':
      return { kind, ...base, text: text('note') ?? '' };
  }
}

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
        ? node.entries.slice(1).find((entry) => entry.key.place === problem.place && isKind(entry))
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
  return (timelineKinds as readonly string[]).includes(word)
    ? `write it with a colon: \`${word}: …\``
    : begins;
};

const isKind = (entry: MapEntry): boolean => (timelineKinds as readonly string[]).includes(textOf(entry.key));

/** The kind is the first key; a mistyped one gets the nearest. */
function kindOf(first: MapEntry, node: MapNode, report: Report): TimelineKind | null {
  const key = textOf(first.key);
  const later = node.entries.find((entry) => isKind(entry) && textOf(entry.key) !== 'note');
  if (isKind(first) && (key !== 'note' || !later)) return key as TimelineKind;
  const meant = later ? undefined : nearest(key, timelineKinds);
  const { place } = first.key;
  report({
    rule: 'text/unknown-key',
    place,
    message: later
      ? `an entry begins with what was done: \`${textOf(later.key)}\` belongs first`
      : `\`${key}\` is not a timeline entry${meant ? `; did you mean \`${meant}\`?` : `: ${timelineKinds.join(', ')}`}`,
    replacements: meant ? [{ title: `Change to ${meant}`, place, text: meant }] : undefined,
  });
  return (
    ((later && textOf(later.key)) as TimelineKind | undefined) ?? (meant as TimelineKind | undefined) ?? null
  );
}

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

function measureOf(node: MapNode, value: Record<string, unknown>, mm: number, report: Report) {
  const conditions = entryOf(node, 'conditions')?.value;
  return {
    name: typeof value.measure === 'string' ? value.measure : '',
    by: (value.by as string | undefined) ?? null,
    at: (value.at as string | undefined) ?? null,
    setUp: (value['set-up'] as 'same' | 'new' | undefined) ?? null,
    instrument: value.instrument ? instrumentOf(value.instrument, entryOf(node, 'instrument'), mm) : null,
    conditions: value.conditions ? wordsOf(conditions) : null,
    readings: readingsOf(entryOf(node, 'readings'), mm, report),
    spans: spanReadingsOf(entryOf(node, 'spans'), mm, report),
    summary: linesIn(entryOf(node, 'summary')?.value),
  };
}

function partsOrAll(node: MapNode, key: string): RelieveOrRelease['parts'] {
  const value = entryOf(node, key)?.value;
  const mentions = mentionsIn(value);
  return mentions.some(({ id }) => id === 'all') ? 'all' : mentions;
}

type Value = Readonly<Record<string, unknown>> | null;

/** Three words make an answer: who, when and how. */
const answerIn = (value: Value): Answer | null => answerSchema.safeParse(value?.answered).data ?? null;

function cutsIn(value: Value, mm: number): Pick<Section, 'cutsMm' | 'beyond'> {
  const { at, beyond } = sectionSchema.shape;
  const cuts = at.safeParse(value?.at).data;
  return {
    cutsMm: cuts === undefined ? [] : [cuts].flat().map((cut) => cut * mm),
    beyond: beyond.safeParse(value?.beyond).data ?? null,
  };
}

function joinIn(node: MapNode, value: Value): Pick<Join, 'parts' | 'how' | 'to'> {
  const to = entryOf(node, 'to');
  const how = joiningsOrOne.safeParse(value?.with).data;
  return {
    parts: mentionsIn(entryOf(node, 'join')?.value),
    how: how === undefined ? null : [how].flat(),
    to: to === undefined ? null : mentionsIn(to.value),
  };
}
