import { type TimelineKind, timelineKinds, timelineSchemas } from '@framewright/schemas';
import type { MapEntry, MapNode, Node, Place } from '../text/tree';
import { entryOf } from '../text/tree';
import { secondsOf } from './chassis-from-text';
import { instrumentOf } from './instrument';
import type { Chain, Hold, Mention, RelieveOrRelease, SummaryLine, TimelineEntry } from './job';
import { nearest } from './names';
import type { Problem } from './problem';
import { readingsOf, spanReadingsOf } from './readings';
import { checked } from './schema-check';

type Report = (problem: Problem) => void;

/** One entry of the timeline; null where nothing of it can be saved. Lengths become mm by `mm` per unit. */
export function timelineEntry(node: Node, mm: number, report: Report): TimelineEntry | null {
  if (node.kind !== 'map' || node.entries.length === 0) {
    report({
      rule: 'text/wrong-type',
      place: node.place,
      message: `an entry begins with what was done: ${timelineKinds.join(', ')}`,
    });
    return null;
  }
  const first = node.entries[0];
  const kind = kindOf(first, node, report);
  if (kind === null) return null;
  const schema = timelineSchemas[kind];
  // rows of numbers do not pass through the schema
  const value = checked(schema, kind === 'measure' ? without(node, ['readings', 'spans']) : node, first.key.place, report) as Record<
    string,
    // biome-ignore lint/suspicious/noExplicitAny: each kind's own schema has checked it
    any
  > | null;
  const base = { place: node.place, keyPlace: first.key.place, note: value?.note === undefined ? null : String(value.note) };
  if (value === null && kind !== 'measure') return null;
  const mention = (key: string): Mention | null => {
    const found = entryOf(node, key)?.value;
    return value?.[key] === undefined || !found ? null : { id: String(value[key]), place: found.place };
  };
  const atMm = value?.at === undefined || typeof value.at !== 'number' ? null : value.at * mm;
  switch (kind) {
    case 'measure':
      return { kind, ...base, ...measureOf(node, value ?? {}, mm, report) };
    case 'observe':
      return { kind, ...base, what: value!.observe, part: mention('part'), atMm };
    case 'pull':
      return {
        kind,
        ...base,
        title: String(value!.pull),
        part: mention('part'),
        chains: chainsOf(node, value!),
        holds: holdsOf(node, value!, mm),
        plan: linesIn(entryOf(node, 'plan')?.value),
      };
    case 'relieve':
    case 'release':
      return { kind, ...base, parts: partsOrAll(node, kind) };
    case 'section':
      return { kind, ...base, part: mention('section')!, atMm };
    case 'replace':
      return { kind, ...base, part: mention('replace')! };
    case 'heat':
      return {
        kind,
        ...base,
        part: mention('heat')!,
        toCelsius: value!.to === undefined ? null : Number.parseFloat(value!.to),
        forSeconds: value!.for === undefined ? null : secondsOf(value!.for),
      };
    case 'note':
      return { kind, ...base, text: String(value!.note) };
  }
}

/** The kind is the first key; a mistyped one gets the nearest. */
function kindOf(first: MapEntry, node: MapNode, report: Report): TimelineKind | null {
  const key = String(first.key.value);
  if ((timelineKinds as readonly string[]).includes(key)) return key as TimelineKind;
  const later = node.entries.find((entry) => (timelineKinds as readonly string[]).includes(String(entry.key.value)) && entry.key.value !== 'note');
  const meant = later ? undefined : nearest(key, timelineKinds);
  report({
    rule: 'text/unknown-key',
    place: first.key.place,
    message: later
      ? `an entry begins with what was done: \`${later.key.source}\` belongs first`
      : `\`${key}\` is not something that a timeline holds${meant ? `; did you mean \`${meant}\`?` : `: ${timelineKinds.join(', ')}`}`,
    replacements: meant ? [{ title: `Change to ${meant}`, place: first.key.place, text: meant }] : undefined,
  });
  return (later?.key.value as TimelineKind | undefined) ?? (meant as TimelineKind | undefined) ?? null;
}

const without = (node: MapNode, keys: readonly string[]): MapNode => ({
  ...node,
  entries: node.entries.filter((entry) => !keys.includes(String(entry.key.value))),
});

function measureOf(node: MapNode, value: Record<string, unknown>, mm: number, report: Report) {
  const conditions = entryOf(node, 'conditions')?.value;
  return {
    name: value.measure === undefined ? '' : String(value.measure),
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

/** A map of free words with the place of each. */
export function wordsOf(node: Node | null | undefined): Map<string, { text: string; place: Place }> {
  const words = new Map<string, { text: string; place: Place }>();
  if (node?.kind !== 'map') return words;
  for (const { key, value } of node.entries) {
    if (value?.kind === 'scalar') words.set(String(key.value), { text: String(value.value), place: value.place });
  }
  return words;
}

export function linesIn(node: Node | null | undefined): SummaryLine[] {
  if (node?.kind !== 'map') return [];
  return node.entries.flatMap(({ key, value }) =>
    value?.kind === 'scalar'
      ? [{ key: String(key.value), text: String(value.value), keyPlace: key.place, valuePlace: value.place }]
      : [],
  );
}

function chainsOf(node: MapNode, value: Record<string, unknown>): Chain[] {
  const list = entryOf(node, 'chains')?.value;
  const nodes = list?.kind === 'sequence' ? list.items : entryOf(node, 'hook') ? [node] : [];
  if (value.chains === undefined && value.hook === undefined) return [];
  return nodes.flatMap((item) => {
    const hook = entryOf(item, 'hook')?.value;
    if (hook?.kind !== 'scalar') return [];
    const direction = entryOf(item, 'direction')?.value;
    const force = entryOf(item, 'force')?.value;
    const numbers = direction?.kind === 'sequence' ? direction.items.map((each) => (each.kind === 'scalar' ? Number(each.value) : Number.NaN)) : [];
    return [
      {
        hook: { id: String(hook.value), place: hook.place },
        direction: numbers.length === 3 && numbers.every(Number.isFinite) ? ([numbers[0], numbers[1], numbers[2]] as const) : null,
        forceKn: force?.kind === 'scalar' ? kilonewtons(String(force.value)) : null,
        place: item === node ? (entryOf(node, 'hook')?.place ?? node.place) : item.place,
      },
    ];
  });
}

function kilonewtons(text: string): number | null {
  const force = Number.parseFloat(text);
  if (!Number.isFinite(force)) return null;
  return /kN\s*$/.test(text) ? force : force / 1000;
}

function holdsOf(node: MapNode, value: Record<string, unknown>, mm: number): Hold[] {
  if (value.hold === undefined) return [];
  const hold = entryOf(node, 'hold')?.value;
  const nodes = hold?.kind === 'sequence' ? hold.items : hold ? [hold] : [];
  return nodes.flatMap((item): Hold[] => {
    if (item.kind === 'scalar') return [{ kind: 'point', point: { id: String(item.value), place: item.place } }];
    const part = entryOf(item, 'part')?.value;
    const at = entryOf(item, 'at')?.value;
    if (part?.kind !== 'scalar' || at?.kind !== 'scalar' || typeof at.value !== 'number') return [];
    return [{ kind: 'part', part: { id: String(part.value), place: part.place }, atMm: at.value * mm }];
  });
}

function partsOrAll(node: MapNode, key: string): RelieveOrRelease['parts'] {
  const value = entryOf(node, key)?.value;
  if (value?.kind === 'sequence') return mentionsIn(value);
  if (value?.kind !== 'scalar') return [];
  return value.value === 'all' ? 'all' : [{ id: String(value.value), place: value.place }];
}

/** The ids of a list, or the one that stands alone. */
export function mentionsIn(node: Node | null | undefined): Mention[] {
  if (node?.kind === 'scalar' && node.value !== null) return [{ id: String(node.value), place: node.place }];
  if (node?.kind !== 'sequence') return [];
  return node.items.flatMap((item) => (item.kind === 'scalar' ? [{ id: String(item.value), place: item.place }] : []));
}
