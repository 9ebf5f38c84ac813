import { chassisKeys, chassisRequired, partSchema, pointSchema, spanSchema, type ToleranceEntry } from '@framewright/schemas';
import type { Vec3 } from '../geometry/vector';
import type { MapEntry, MapNode, Node, Place, TextTree } from '../text/tree';
import { entryOf } from '../text/tree';
import type { AxisLimits, Limits, Origin, Part, Source, SourceKind } from './chassis';
import type { Side } from './names';
import type { Problem } from './problem';
import { checked } from './schema-check';
import { topLevel } from './top-level';
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
  readonly hasParts: boolean;
  readonly hasPoints: boolean;
  /** By name; null removes the parent's. */
  readonly parts: ReadonlyMap<string, PartSheet | { removed: Place }>;
  readonly points: ReadonlyMap<string, PointSheet | { removed: Place }>;
  readonly spans: readonly SpanSheet[];
  readonly problems: readonly Problem[];
  readonly broken: boolean;
  readonly head: Place;
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
  const problems: Problem[] = [...tree.problems];
  const report: Report = (problem) => problems.push(problem);
  const file = topLevel(tree, chassisKeys, chassisRequired, ['parts', 'points', 'spans'], report);
  const { value } = file;
  const unit: Unit = value.units ?? 'mm';
  const mm = mmPer[unit];
  const parts = new Map<string, PartSheet | { removed: Place }>();
  const points = new Map<string, PointSheet | { removed: Place }>();
  for (const entry of mapEntries(file.root, 'parts', report)) {
    const name = nameIn(entry, report);
    if (name === null) continue;
    if (isRemoval(entry)) parts.set(name, { removed: entry.key.place });
    else {
      const part = partSheet(name, entry, mm, report);
      if (part) parts.set(name, part);
    }
  }
  for (const entry of mapEntries(file.root, 'points', report)) {
    const name = nameIn(entry, report);
    if (name === null) continue;
    if (isRemoval(entry)) points.set(name, { removed: entry.key.place });
    else {
      const point = pointSheet(name, entry, mm, report);
      if (point) points.set(name, point);
    }
  }
  const isExtension = value.extends !== undefined;
  if (!isExtension && file.root !== null) {
    for (const key of ['vehicle', 'points'] as const) {
      if (!entryOf(file.root, key)) report({ rule: 'text/missing-key', place: file.head, message: `this file needs \`${key}\`` });
    }
    for (const [name, entry] of [...parts, ...points]) {
      if ('removed' in entry)
        report({ rule: 'text/wrong-type', place: entry.removed, message: `nothing is given for \`${name}\`` });
    }
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
    hasParts: entryOf(file.root, 'parts') !== undefined,
    hasPoints: entryOf(file.root, 'points') !== undefined,
    parts,
    points,
    spans: spanSheets(file.root, mm, report),
    problems,
    broken: tree.problems.some((problem) => problem.rule === 'text/syntax' || problem.rule === 'text/too-large'),
    head: file.head,
  };
}

function mapEntries(root: MapNode | null, key: string, report: Report): readonly MapEntry[] {
  const value = entryOf(root, key)?.value;
  if (!value || isEmpty(value)) return [];
  if (value.kind === 'map') return value.entries;
  report({ rule: 'text/wrong-type', place: value.place, message: `\`${key}\`: a map of names belongs here` });
  return [];
}

const isEmpty = (node: Node): boolean => node.kind === 'scalar' && node.value === null;
const isRemoval = (entry: MapEntry): boolean => entry.value === null || isEmpty(entry.value);

const namePattern = /^[a-z0-9]+(-[a-z0-9]+)*$/;

function nameIn(entry: MapEntry, report: Report): string | null {
  const name = String(entry.key.value);
  if (namePattern.test(name)) return name;
  const place = entry.key.place;
  const sided = name.match(/^(.*)\.[LR]$/);
  const mended = (sided?.[1] ?? name).toLowerCase().replace(/[^a-z0-9]+/g, '-').replace(/^-+|-+$/g, '');
  report({
    rule: 'text/wrong-type',
    place,
    message: sided
      ? `a name stands here without its side: write ${mended} with \`both\`, or \`left\` and \`right\``
      : `a name is lower-case words joined by hyphens${mended ? `: ${mended}` : ''}`,
    replacements: mended ? [{ title: `Change to ${mended}`, place, text: mended }] : undefined,
  });
  return null;
}

function partSheet(name: string, entry: MapEntry, mm: number, report: Report): PartSheet | null {
  const value = checked(partSchema, entry.value, entry.key.place, report);
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

function pointSheet(name: string, entry: MapEntry, mm: number, report: Report): PointSheet | null {
  const positions: PointSheet['positions'][number][] = [];
  let faulty = false;
  for (const key of positionKeys) {
    const found = entryOf(entry.value, key);
    if (found === undefined) continue;
    const triple = tripleOf(found.value, '[length, width, height]', (problem) => {
      faulty = true;
      report(problem);
    });
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
  const value = checked(pointSchema, entry.value, entry.key.place, (problem) => {
    if (!quiet.has(problem.place) && !(faulty && problem.place === entry.key.place)) report(problem);
  });
  if (positions.length === 0 || (value === null && !faulty)) return null;
  return {
    name,
    positions: withoutConflict(positions),
    part: value?.part ?? null,
    partPlace: entryOf(entry.value, 'part')?.value?.place ?? null,
    base: value?.base ?? false,
    limits: limitsOf(value?.tolerance, mm),
    fixing: value?.fixing ?? null,
    uncertaintyMm: value?.uncertainty !== undefined ? value.uncertainty * mm : value?.source?.uncertainty !== undefined ? value.source.uncertainty * mm : null,
    source: value?.source ? sourceOf(value.source) : null,
    place: entry.key.place,
  };
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
  if (!list || isEmpty(list)) return [];
  if (list.kind !== 'sequence') {
    report({ rule: 'text/wrong-type', place: list.place, message: '`spans`: a list belongs here' });
    return [];
  }
  return list.items.flatMap((item) => {
    const value = checked(spanSchema, item, item.place, report);
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

export const swapped = ([length, width, height]: AxisLimits): AxisLimits => [length, [-width[1], -width[0]], height];
