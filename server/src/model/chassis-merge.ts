import type { AxisLimits, Chassis, Limits, Part, Point, Span } from './chassis';
import { type ChassisSheet, type PartSheet, type PartialLimits, type PointSheet, type SpanSheet, originOf, swapped } from './chassis-from-text';
import { nearest, resolvedId } from './names';
import type { Problem } from './problem';

/** Common practice in the trade where the maker states none; a default of the format. */
const defaultToleranceMm = 3;
const defaultBuildMm = 0.5;

interface InForce {
  readonly limits: AxisLimits;
  readonly uncertaintyMm: number;
  readonly source: Chassis['source'];
}

interface Draft {
  readonly parts: Map<string, { sheet: PartSheet; uri: string }>;
  readonly points: Map<string, { sheet: PointSheet; uri: string; inForce: InForce }>;
  readonly spans: { sheet: SpanSheet; uri: string; inForce: InForce }[];
}

/**
 * One body from a chassis file and its `extends` parents.
 * @param sheets the file itself first, then its parent, and so on
 * @returns the body; its `problems` are those of the file itself, its own and those of its names
 */
export function chassisFrom(sheets: readonly ChassisSheet[]): Chassis {
  const own = sheets[0];
  const problems: Problem[] = [...own.problems];
  const draft: Draft = { parts: new Map(), points: new Map(), spans: [] };
  const last = sheets.length - 1;
  let inForce: InForce = {
    limits: axisLimits([null, null, null], [each(defaultToleranceMm), each(defaultToleranceMm), each(defaultToleranceMm)]),
    uncertaintyMm: 0,
    source: null,
  };
  for (let i = last; i >= 0; i--) {
    const sheet = sheets[i];
    inForce = {
      limits: axisLimits(sheet.tolerance, inForce.limits),
      uncertaintyMm: sheet.sourceUncertaintyMm ?? (sheet.source ? 0 : inForce.uncertaintyMm),
      source: sheet.source ?? inForce.source,
    };
    takeIn(draft, sheet, inForce);
  }
  const parts = partsOf(draft);
  const points = pointsOf(draft, parts, own, problems);
  const nearestGiven = <T>(value: (sheet: ChassisSheet) => T | null): T | null => {
    for (const sheet of sheets) {
      const given = value(sheet);
      if (given !== null) return given;
    }
    return null;
  };
  return {
    uri: own.uri,
    vehicle: nearestGiven((sheet) => sheet.vehicle) ?? '',
    unit: own.unit,
    source: nearestGiven((sheet) => sheet.source),
    conditions: nearestGiven((sheet) => sheet.conditions) ?? new Map(),
    buildMm: nearestGiven((sheet) => sheet.buildMm) ?? defaultBuildMm,
    spanToleranceMm: Math.max(...inForce.limits.map(([low, high]) => Math.max(-low, high))),
    parts,
    points,
    spans: spansOf(draft, points, own, problems),
    chain: sheets.map(({ uri, text }) => ({ uri, text })),
    problems,
    broken: sheets.some((sheet) => sheet.broken),
  };
}

const each = (mm: number): Limits => [-mm, mm];

const axisLimits = (given: PartialLimits, otherwise: AxisLimits): AxisLimits => [
  given[0] ?? otherwise[0],
  given[1] ?? otherwise[1],
  given[2] ?? otherwise[2],
];

/** An entry replaces the parent's whole; null removes it; a span is replaced by one with the same ends. */
function takeIn(draft: Draft, sheet: ChassisSheet, inForce: InForce): void {
  const { uri } = sheet;
  for (const [name, part] of sheet.parts) {
    if ('removed' in part) draft.parts.delete(name);
    else draft.parts.set(name, { sheet: part, uri });
  }
  for (const [name, point] of sheet.points) {
    if ('removed' in point) draft.points.delete(name);
    else draft.points.set(name, { sheet: point, uri, inForce });
  }
  for (const span of sheet.spans) {
    const inherited = draft.spans.findIndex((other) => other.uri !== uri && sameEnds(other.sheet, span));
    if (inherited >= 0) draft.spans[inherited] = { sheet: span, uri, inForce };
    else draft.spans.push({ sheet: span, uri, inForce });
  }
}

const sameEnds = (a: SpanSheet, b: SpanSheet): boolean =>
  a.pairs === b.pairs && ((a.from === b.from && a.to === b.to) || (a.from === b.to && a.to === b.from));

function partsOf(draft: Draft): Map<string, Part> {
  const parts = new Map<string, Part>();
  for (const { sheet, uri } of draft.parts.values()) {
    const { sided, place, ...rest } = sheet;
    const sides = sided ? (['L', 'R'] as const) : ([null] as const);
    for (const side of sides) {
      const id = side === null ? sheet.name : `${sheet.name}.${side}`;
      parts.set(id, { ...rest, id, side, origin: originOf(uri, place) });
    }
  }
  return parts;
}

function pointsOf(draft: Draft, parts: ReadonlyMap<string, Part>, own: ChassisSheet, problems: Problem[]): Map<string, Point> {
  const points = new Map<string, Point>();
  for (const { sheet, uri, inForce } of draft.points.values()) {
    const limits = axisLimits(sheet.limits, inForce.limits);
    for (const { side, position, place } of sheet.positions) {
      const id = side === null ? sheet.name : `${sheet.name}.${side}`;
      const outward = side === 'R' ? -1 : 1;
      points.set(id, {
        id,
        name: sheet.name,
        side,
        reference: [position[0], outward * position[1], position[2]],
        limits: side === 'R' ? swapped(limits) : limits,
        uncertaintyMm: sheet.uncertaintyMm ?? (sheet.source ? 0 : inForce.uncertaintyMm),
        part: partOf(sheet, side, parts),
        base: sheet.base,
        fixing: sheet.fixing,
        source: sheet.source ?? inForce.source,
        origin: originOf(uri, sheet.place),
        coordinates: originOf(uri, place),
      });
    }
    if (uri === own.uri) reportPart(sheet, parts, problems);
  }
  reportOrphans(draft, parts, own, problems);
  return points;
}

/** The part of a point: a sided part's own side. */
function partOf(sheet: PointSheet, side: Point['side'], parts: ReadonlyMap<string, Part>): string | null {
  if (sheet.part === null) return null;
  if (parts.has(sheet.part)) return sheet.part;
  const sided = `${sheet.part}.${side}`;
  return side !== null && parts.has(sided) ? sided : null;
}

function reportPart(sheet: PointSheet, parts: ReadonlyMap<string, Part>, problems: Problem[]): void {
  const { part, partPlace: place } = sheet;
  if (part === null || place === null) return;
  const found = resolvedId(part, parts, true);
  if (found.kind === 'unknown') {
    const names = new Set([...parts.values()].map((each) => each.name));
    const meant = nearest(part, names);
    problems.push({
      rule: 'name/unknown-part',
      place,
      message: `there is no part ${part}${meant ? `; did you mean ${meant}?` : ''}`,
      replacements: meant ? [{ title: `Change to ${meant}`, place, text: meant }] : undefined,
    });
  } else if (!parts.has(part) && sheet.positions.some(({ side }) => side === null)) {
    problems.push({
      rule: 'name/needs-side',
      place,
      message: `${part} is sided and ${sheet.name} is a centre point: write ${found.kind === 'found' ? found.ids.join(' or ') : part}`,
    });
  }
}

/** A removed part that inherited points still stand on. */
function reportOrphans(draft: Draft, parts: ReadonlyMap<string, Part>, own: ChassisSheet, problems: Problem[]): void {
  for (const [name, part] of own.parts) {
    if (!('removed' in part) || parts.has(name) || parts.has(`${name}.L`)) continue;
    const orphans = [...draft.points.values()].filter(({ sheet, uri }) => sheet.part === name && uri !== own.uri);
    if (orphans.length === 0) continue;
    problems.push({
      rule: 'name/unknown-part',
      place: part.removed,
      message: `${name} is removed, but ${orphans.map(({ sheet }) => sheet.name).join(', ')} ${orphans.length === 1 ? 'stands' : 'stand'} on it: remove ${orphans.length === 1 ? 'it' : 'them'} too, or give another part`,
    });
  }
}

function spansOf(draft: Draft, points: ReadonlyMap<string, Point>, own: ChassisSheet, problems: Problem[]): Span[] {
  return draft.spans.flatMap(({ sheet, uri, inForce }) => {
    const ends = endsOf(sheet, points);
    if (typeof ends === 'object' && 'problems' in ends) {
      if (uri === own.uri) problems.push(...ends.problems);
      return [];
    }
    const widest = Math.max(...inForce.limits.map(([low, high]) => Math.max(-low, high)));
    return ends.map(([from, to]) => ({
      from,
      to,
      distanceMm: sheet.distanceMm,
      limits: sheet.limits ?? each(widest),
      uncertaintyMm: inForce.uncertaintyMm,
      level: sheet.level,
      origin: originOf(uri, sheet.place),
    }));
  });
}

function endsOf(sheet: SpanSheet, points: ReadonlyMap<string, Point>): [string, string][] | { problems: Problem[] } {
  const problems: Problem[] = [];
  const idsAt = (id: string, place: SpanSheet['fromPlace']): string[] => {
    const found = resolvedId(id, points, sheet.pairs !== null);
    if (found.kind === 'found') return found.ids;
    problems.push(pointProblem(id, found, place, points));
    return [];
  };
  const from = idsAt(sheet.from, sheet.fromPlace);
  const to = idsAt(sheet.to, sheet.toPlace);
  if (problems.length > 0) return { problems };
  if (sheet.pairs === null) return [[from[0], to[0]]];
  // a centre point pairs with either side
  const [a, b] = [from.length === 1 ? [from[0], from[0]] : from, to.length === 1 ? [to[0], to[0]] : to];
  return sheet.pairs === 'straight'
    ? [
        [a[0], b[0]],
        [a[1], b[1]],
      ]
    : [
        [a[0], b[1]],
        [a[1], b[0]],
      ];
}

/** What is wrong with a point's id, with the nearest name or the missing side as a fix. */
export function pointProblem(
  id: string,
  found: Exclude<ReturnType<typeof resolvedId>, { kind: 'found' }>,
  place: SpanSheet['fromPlace'],
  points: ReadonlyMap<string, unknown>,
): Problem {
  return nameProblem('point', id, found, place, points);
}

export function nameProblem(
  what: 'point' | 'part',
  id: string,
  found: Exclude<ReturnType<typeof resolvedId>, { kind: 'found' }>,
  place: SpanSheet['fromPlace'],
  known: ReadonlyMap<string, unknown>,
): Problem {
  if (found.kind === 'needs-side') {
    const sides = [`${id}.L`, `${id}.R`].filter((side) => known.has(side));
    return {
      rule: 'name/needs-side',
      place,
      message: `${id} is there on both sides: write ${sides.join(' or ')}`,
      replacements: sides.map((side) => ({ title: `Change to ${side}`, place, text: side })),
    };
  }
  const meant = found.nearest;
  return {
    rule: what === 'point' ? 'name/unknown-point' : 'name/unknown-part',
    place,
    message: `there is no ${what} ${id}${meant ? `; did you mean ${meant}?` : ''}`,
    replacements: meant ? [{ title: `Change to ${meant}`, place, text: meant }] : undefined,
  };
}
