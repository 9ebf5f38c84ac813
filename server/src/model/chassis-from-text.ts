import { chassisKeys, chassisRequired, chassisRequiredUnlessExtends, partSchema, pointSchema, spanSchema, type ToleranceEntry } from '@framewright/schemas';
import type { Vec3 } from '../geometry/vector';
import { type MapEntry, type MapNode, type Place, type TextTree, entryOf, isNothing, offsetsOf, textOf } from '../text/tree';
import type { AxisLimits, Limits, Origin, Part, Source, SourceKind } from './chassis';
import { type Side, nameOf, sideOf } from './names';
import type { Problem } from './problem';
import { checked } from './schema-check';
import { isUnreadable, named, topLevel, withoutEchoes } from './top-level';
import { tripleOf } from './triple';
import { type Unit, mmPer } from './units';

/** One chassis file by itself, before its parents are taken in. Names are not resolved yet. */
export interface ChassisSheet {
  readonly uri: string;
  readonly text: string;
  readonly vehicle: string | null;
  readonly unit: Unit;
  readonly source: Source | null;
  readonly conditions: ReadonlyMap<string, string> | null;
  readonly buildMm: number | null;
  readonly tolerance: PartialLimits;
  readonly sourceUncertaintyMm: number | null;
  readonly extendsPath: string | null;
  readonly extendsPlace: Place | null;
  /** By name; null removes the parent's. */
  readonly parts: ReadonlyMap<string, PartSheet | { removed: Place }>;
  readonly points: ReadonlyMap<string, PointSheet | { removed: Place }>;
  readonly spans: readonly SpanSheet[];
  /** Names that are given, but could not be read. */
  readonly unread: { readonly points: ReadonlySet<string>; readonly parts: ReadonlySet<string> };
  /** Its first line says that it is a chassis file, or nothing at all. */
  readonly isChassis: boolean;
  readonly problems: readonly Problem[];
  readonly broken: boolean;
  readonly head: Place;
  readonly unitPlace: Place | null;
}

/** Limits in the signs of the file (width outboard on a sided point); null: what is in force otherwise. */
export type PartialLimits = readonly [Limits | null, Limits | null, Limits | null];

export interface PartSheet extends Omit<Part, 'id' | 'side' | 'origin'> {
  readonly sided: boolean;
  readonly place: Place;
}

export interface PointSheet {
  readonly name: string;
  /** Positions in the signs of the file, mm. */
  readonly positions: readonly { readonly side: Side | null; readonly position: Vec3; readonly place: Place }[];
  readonly part: string | null;
  readonly partPlace: Place | null;
  readonly base: boolean;
  readonly limits: PartialLimits;
  readonly fixing: string | null;
  readonly uncertaintyMm: number | null;
  readonly source: Source | null;
  readonly place: Place;
}

export interface SpanSheet {
  readonly from: string;
  readonly to: string;
  readonly fromPlace: Place;
  readonly toPlace: Place;
  readonly distanceMm: number;
  readonly limits: Limits | null;
  readonly level: boolean;
  readonly pairs: 'straight' | 'crossed' | null;
  readonly place: Place;
}

type Report = (problem: Problem) => void;

/** Reads a chassis file. Never throws: what is wrong is reported and left out. */
export function chassisSheet(uri: string, tree: TextTree): ChassisSheet {
  const problems: Problem[] = [];
  const report: Report = (problem) => problems.push(problem);
  const extending = entryOf(tree.root, 'extends') !== undefined;
  const required = extending ? chassisRequired : [...chassisRequired, ...chassisRequiredUnlessExtends];
  const file = topLevel(tree, chassisKeys, required, ['parts', 'points', 'spans'], report);
  const { value } = file;
  const kindNode = entryOf(file.root, 'framewright')?.value;
  const kind = kindNode?.kind === 'scalar' ? textOf(kindNode) : undefined;
  const unit: Unit = value.units ?? 'mm';
  const unitPlace = entryOf(file.root, 'units')?.value?.place ?? null;
  const mm = mmPer[unit];
  // what every point is read and judged by
  const faultyFrame = (['units', 'tolerance', 'source', 'extends'] as const).some(
    (key) => entryOf(file.root, key) !== undefined && value[key] === undefined,
  );
  const unread = { points: new Set<string>(), parts: new Set<string>() };
  const parts = new Map<string, PartSheet | { removed: Place }>();
  const points = new Map<string, PointSheet | { removed: Place }>();
  for (const entry of mapEntries(file.root, 'parts', report)) {
    const name = nameIn(entry, report);
    const removed = isRemoval(entry);
    const part = name === null || removed ? null : partSheet(name, entry, mm, report);
    if (name === null || (part === null && !removed) || (removed && !extending)) unread.parts.add(name ?? mendedName(entry));
    else parts.set(name, part ?? { removed: entry.key.place });
  }
  for (const entry of mapEntries(file.root, 'points', report)) {
    const name = nameIn(entry, report);
    const removed = isRemoval(entry);
    const { point, whole } = name === null || removed ? nothingRead : pointSheet(name, entry, mm, report);
    if (name === null || (!removed && !whole) || (removed && !extending)) unread.points.add(name ?? mendedName(entry));
    if (name !== null && (point !== null || (removed && extending))) points.set(name, point ?? { removed: entry.key.place });
  }
  if (!extending && file.root !== null) {
    const given = entryOf(file.root, 'points');
    if (given && isNothing(given.value)) report({ rule: 'text/wrong-type', place: given.key.place, message: 'nothing is given for `points`' });
    for (const kind of ['parts', 'points'] as const)
      for (const entry of mapEntries(file.root, kind, () => {}))
        if (isRemoval(entry) && isName(entry))
          report({ rule: 'text/wrong-type', place: entry.key.place, message: `nothing is given for \`${textOf(entry.key)}\`` });
  }
  return {
    uri,
    text: tree.text,
    vehicle: value.vehicle ?? null,
    unit,
    source: value.source ? sourceOf(value.source) : null,
    sourceUncertaintyMm: value.source?.uncertainty === undefined ? null : value.source.uncertainty * mm,
    conditions: value.conditions ? new Map(Object.entries(value.conditions)) : null,
    buildMm: value.build === undefined ? null : value.build * mm,
    tolerance: limitsOf(value.tolerance, mm),
    extendsPath: value.extends ?? null,
    extendsPlace: entryOf(file.root, 'extends')?.value?.place ?? null,
    parts,
    points,
    spans: spanSheets(file.root, mm, report),
    unread,
    isChassis: kind === undefined || kind.startsWith('chassis/'),
    problems: [...tree.problems, ...withoutEchoes(tree, problems)],
    broken: isUnreadable(tree) || faultyFrame,
    head: file.head,
    unitPlace,
  };
}

function mapEntries(root: MapNode | null, key: string, report: Report): readonly MapEntry[] {
  const value = entryOf(root, key)?.value;
  if (isNothing(value)) return [];
  if (value.kind === 'map') return value.entries;
  report({ rule: 'text/wrong-type', place: value.place, message: `\`${key}\`: a map of names belongs here` });
  return [];
}

const isRemoval = (entry: MapEntry): boolean => isNothing(entry.value);

const namePattern = /^[a-z0-9]+(-[a-z0-9]+)*$/;

const isName = (entry: MapEntry): boolean => namePattern.test(textOf(entry.key));

/** The name that was likely meant, for one that is not written as a name is. */
const mendedName = (entry: MapEntry): string =>
  nameOf(textOf(entry.key))
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');

function nameIn(entry: MapEntry, report: Report): string | null {
  if (isName(entry)) return textOf(entry.key);
  const { place } = entry.key;
  const mended = mendedName(entry);
  report({
    rule: 'text/wrong-type',
    place,
    message:
      mended && sideOf(textOf(entry.key)) !== null
        ? `a name stands here without its side: write ${mended} (a point with \`both\`, or \`left\` and \`right\`; a part with \`sided: true\`)`
        : `a name is lower-case words joined by hyphens${mended ? `: ${mended}` : ''}`,
    replacements: mended ? [{ title: `Change to ${mended}`, place, text: mended }] : undefined,
  });
  return null;
}

function partSheet(name: string, entry: MapEntry, mm: number, report: Report): PartSheet | null {
  const value = checked(partSchema, entry.value, entry.key.place, (problem) => report(named(problem, name)));
  if (value === null) return null;
  const heat = value.heat;
  return {
    name,
    sided: value.sided ?? false,
    along: { length: 0, width: 1, height: 2 }[value.along ?? 'length'] as 0 | 1 | 2,
    steel: value.steel ?? null,
    straighten: value.straighten ?? null,
    section: value.section ? [value.section[0] * mm, value.section[1] * mm] : null,
    heat:
      heat === undefined || heat === 'never'
        ? (heat ?? null)
        : { toCelsius: Number.parseFloat(heat.to), forSeconds: heat.for === undefined ? null : secondsOf(heat.for) },
    reference: value.reference ?? null,
    place: entry.key.place,
  };
}

/** `90 s` or `2 min`, s. */
export const secondsOf = (text: string): number => Number.parseFloat(text) * (text.trim().endsWith('min') ? 60 : 1);

const positionKeys = ['both', 'left', 'right', 'centre'] as const;

interface PointRead {
  readonly point: PointSheet | null;
  /** Everything that its readings are judged by could be read. */
  readonly whole: boolean;
}

const nothingRead: PointRead = { point: null, whole: false };

function pointSheet(name: string, entry: MapEntry, mm: number, report: Report): PointRead {
  const positions: PointSheet['positions'][number][] = [];
  let faulty = false;
  for (const key of positionKeys) {
    const found = entryOf(entry.value, key);
    if (found === undefined) continue;
    const triple = tripleOf(found.value, '[length, width, height]', report);
    if (triple === null) {
      if (found.value === null) report({ rule: 'text/wrong-type', place: found.key.place, message: `nothing is given for \`${key}\`` });
      faulty = true;
      continue;
    }
    const position: Vec3 = [triple[0] * mm, triple[1] * mm, triple[2] * mm];
    const sides: (Side | null)[] = key === 'both' ? ['L', 'R'] : key === 'left' ? ['L'] : key === 'right' ? ['R'] : [null];
    for (const side of sides) positions.push({ side, position, place: found.value!.place });
  }
  // the rows of numbers were judged above: the schema need not say it a second time
  const quiet = faulty ? new Set<Place>(positionKeys.flatMap((key) => placesUnder(entryOf(entry.value, key)))) : new Set<Place>();
  const limits = ['tolerance', 'uncertainty', 'source'].flatMap((key) => entryOf(entry.value, key)?.place ?? []).map(offsetsOf);
  let unjudged = false;
  const value = checked(pointSchema, entry.value, entry.key.place, (problem) => {
    if (quiet.has(problem.place) || (faulty && problem.place === entry.key.place)) return;
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
    limits: limitsOf(value?.tolerance, mm),
    fixing: value?.fixing ?? null,
    uncertaintyMm: uncertainty === undefined ? null : uncertainty * mm,
    source: value?.source ? sourceOf(value.source) : null,
    place: entry.key.place,
  };
  return { point, whole: !faulty };
}

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

function spanSheets(root: MapNode | null, mm: number, report: Report): SpanSheet[] {
  const list = entryOf(root, 'spans')?.value;
  if (isNothing(list)) return [];
  if (list.kind !== 'sequence') {
    report({ rule: 'text/wrong-type', place: list.place, message: '`spans`: a list belongs here' });
    return [];
  }
  return list.items.flatMap((item) => {
    const value = checked(spanSchema, item, item.place, (problem) => report({ ...problem, message: problem.message.replace(/^this/, 'a span') }));
    if (value === null) return [];
    return [
      {
        from: value.from,
        to: value.to,
        fromPlace: entryOf(item, 'from')?.value?.place ?? item.place,
        toPlace: entryOf(item, 'to')?.value?.place ?? item.place,
        distanceMm: value.distance * mm,
        limits: value.tolerance === undefined ? null : oneLimits(value.tolerance, mm),
        level: value.level ?? false,
        pairs: value.pairs ?? null,
        place: item.place,
      },
    ];
  });
}

const oneLimits = (tolerance: number | readonly [number, number], mm: number): Limits =>
  typeof tolerance === 'number' ? [-tolerance * mm, tolerance * mm] : [tolerance[0] * mm, tolerance[1] * mm];

export function limitsOf(tolerance: ToleranceEntry | undefined, mm: number): PartialLimits {
  if (tolerance === undefined) return [null, null, null];
  if (typeof tolerance === 'number') {
    const each = oneLimits(tolerance, mm);
    return [each, each, each];
  }
  const of = (axis: 'length' | 'width' | 'height') => {
    const value = tolerance[axis];
    return value === undefined ? null : oneLimits(value as number | [number, number], mm);
  };
  return [of('length'), of('width'), of('height')];
}

function sourceOf(source: { kind?: string; reference?: string; date?: string }): Source | null {
  if (source.kind === undefined) return null;
  return { kind: source.kind as SourceKind, reference: source.reference ?? null, date: source.date ?? null };
}

export const originOf = (uri: string, place: Place): Origin => ({ uri, place });

export const swapped = ([length, width, height]: AxisLimits): AxisLimits => [length, [0 - width[1], 0 - width[0]], height];
