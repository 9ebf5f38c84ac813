import { sameWord } from '../../text/words';
import type { Chassis, Part, Point } from '../chassis';
import {
  type ChassisSheet,
  Coordinates,
  type LimitsInForce,
  type MemberSheet,
  originOf,
  type PartSheet,
  type PointSheet,
} from '../chassis-sheet';
import { meantIds, nameOf, resolvedId, sideOf } from '../names';
import type { Problem } from '../problem';
import { outward, positionSigns, type SheetAxes, signAlong, signedBand } from '../sheet-axes';
import { joinedIds } from './joined-parts';
import { defaultLimits, limitsFrom, limitsOn } from './limits-in-force';
import { membersOf } from './members';
import { mostSuggested, unknownName } from './name-problems';
import { overridesOf } from './overrides';
import { type MovedEnd, type SpanInForce, spansOf, widestOf } from './spans-merge';

const defaultBuildMm = 0.5;
const defaultBuildElsewhereMm = 1;

interface InForce {
  readonly limits: LimitsInForce;
  readonly uncertaintyMm: number;
  readonly source: Chassis['source'];
}

interface Draft {
  readonly members: Map<string, { sheet: MemberSheet; uri: string }>;
  readonly parts: Map<string, { sheet: PartSheet; uri: string }>;
  readonly points: Map<string, { sheet: PointSheet; uri: string; axes: SheetAxes; inForce: InForce }>;
  readonly spans: (SpanInForce & { readonly moved: Map<string, MovedEnd> })[];
  readonly unread: { readonly points: Set<string>; readonly parts: Set<string> };
}

/**
 * One body from a chassis file and its `extends` parents.
 * @param sheets the file itself first, then its parent, and so on
 * @returns the body; its `problems` are those of the file itself, its own and those of its names
 */
export function chassisFrom(sheets: readonly ChassisSheet[]): Chassis {
  const own = sheets[0];
  const problems: Problem[] = [...own.problems];
  const draft: Draft = {
    members: new Map(),
    parts: new Map(),
    points: new Map(),
    spans: [],
    unread: { points: new Set(), parts: new Set() },
  };
  const last = sheets.length - 1;
  let inForce: InForce = {
    limits: defaultLimits,
    uncertaintyMm: 0,
    source: null,
  };
  for (let i = last; i >= 0; i--) {
    const sheet = sheets[i];
    inForce = {
      limits: limitsFrom(sheet.tolerance, inForce.limits),
      uncertaintyMm: sheet.sourceUncertaintyMm ?? (sheet.source ? 0 : inForce.uncertaintyMm),
      source: sheet.source ?? inForce.source,
    };
    takeIn(draft, sheet, inForce);
  }
  const parts = joinedParts(draft, partsOf(draft, own), own, problems);
  const points = pointsOf(draft, parts, own, problems);
  const { spans, dropped, widened, missing } = spansOf(
    draft.spans,
    points,
    draft.unread.points,
    own.uri,
    problems,
  );
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
    axes: own.axes,
    source: nearestGiven((sheet) => sheet.source),
    conditions: nearestGiven((sheet) => sheet.conditions) ?? new Map(),
    buildMm: nearestGiven((sheet) => sheet.buildMm) ?? defaultBuildMm,
    buildElsewhereMm: nearestGiven((sheet) => sheet.buildElsewhereMm) ?? defaultBuildElsewhereMm,
    spanToleranceMm: widestOf(inForce.limits),
    parts,
    points,
    spans,
    members: membersOf(draft.members.values(), points, own, problems),
    droppedSpans: dropped,
    widenedSpans: widened,
    missingEnds: missing,
    ...overridesOf(sheets),
    chain: sheets.map(({ uri, text }) => ({ uri, text })),
    problems,
    unread: draft.unread,
    broken: sheets.some((sheet) => sheet.broken),
    head: own.head,
    unitPlace: own.unitPlace,
    axesPlace: own.axesPlace,
  };
}

/**
 * An entry replaces the parent's whole, null removes it. One that is given but could not be read removes the parent's too: what
 * it would have replaced no longer holds.
 */
function takeIn(draft: Draft, sheet: ChassisSheet, inForce: InForce): void {
  const { uri } = sheet;
  noteMoved(draft, sheet);
  for (const kind of ['parts', 'points'] as const) {
    for (const [name, given] of sheet[kind]) {
      draft.unread[kind].delete(name);
      if ('removed' in given) draft[kind].delete(name);
    }
    for (const name of sheet.unread[kind]) {
      draft[kind].delete(name);
      draft.unread[kind].add(name);
    }
  }
  for (const [name, part] of sheet.parts)
    if (!('removed' in part)) draft.parts.set(name, { sheet: part, uri });
  for (const [name, point] of sheet.points)
    if (!('removed' in point)) draft.points.set(name, { sheet: point, uri, axes: sheet.axes, inForce });
  for (const span of sheet.spans) draft.spans.push({ sheet: span, uri, inForce, moved: new Map() });
  for (const [name, member] of sheet.members) {
    if ('removed' in member) draft.members.delete(name);
    else draft.members.set(name, { sheet: member, uri });
  }
}

/** Nearer than this two positions are the same, written in another unit, mm. */
const samePlaceMm = 1e-3;

/** Distances that earlier files list to a point that now stands elsewhere were measured to another place. */
function noteMoved(draft: Draft, { uri, points, unread }: ChassisSheet): void {
  for (const name of new Set([...points.keys(), ...unread.points])) {
    const given = points.get(name);
    const before = draft.points.get(name)?.sheet;
    const positions = given === undefined || 'removed' in given ? [] : given.positions;
    for (const { side, position } of before?.positions ?? []) {
      const next = positions.find((each) => each.side === side)?.position;
      const isOff = position.map((each, k) => !next || Math.abs(each - next[k]) > samePlaceMm);
      if (!isOff.includes(true)) continue;
      const id = side === null ? name : `${name}.${side}`;
      const sidewaysUri = isOff[0] || isOff[1] ? uri : null;
      for (const { moved } of draft.spans) {
        const first = moved.get(id);
        moved.set(id, { uri: first?.uri ?? uri, sidewaysUri: first?.sidewaysUri ?? sidewaysUri });
      }
    }
  }
}

/** Parts that are not joined yet: what they are joined to must be known first. */
function partsOf(draft: Draft, { axes }: ChassisSheet): Map<string, Part> {
  const parts = new Map<string, Part>();
  for (const { sheet, uri } of draft.parts.values()) {
    const { sided, place, joined: _, ...rest } = sheet;
    const sides = sided ? (['L', 'R'] as const) : ([null] as const);
    for (const side of sides) {
      const id = side === null ? sheet.name : `${sheet.name}.${side}`;
      // the band of a sided part is mirrored as its points are
      const section =
        rest.section && rest.along === 1 ? signedBand(outward(side), rest.section) : rest.section;
      const sheetSign = signAlong(axes, rest.along, side);
      parts.set(id, { ...rest, id, side, section, sheetSign, joined: [], origin: originOf(uri, place) });
    }
  }
  return parts;
}

/** The same parts with what each is joined to, both ways. */
function joinedParts(
  { parts: sheets, unread }: Draft,
  parts: Map<string, Part>,
  own: ChassisSheet,
  problems: Problem[],
): Map<string, Part> {
  const stated = [...sheets.values()].map(({ sheet, uri }) => ({ ...sheet, isOwn: uri === own.uri }));
  for (const [id, ids] of joinedIds(stated, parts, unread.parts, problems)) {
    const part = parts.get(id);
    if (part !== undefined) parts.set(id, { ...part, joined: [...ids] });
  }
  return parts;
}

function pointsOf(
  draft: Draft,
  parts: ReadonlyMap<string, Part>,
  own: ChassisSheet,
  problems: Problem[],
): Map<string, Point> {
  const points = new Map<string, Point>();
  for (const { sheet, uri, axes, inForce } of draft.points.values()) {
    const limits = limitsFrom(sheet.limits, inForce.limits);
    for (const given of sheet.positions) {
      const { side, position, node } = given;
      // the same string as in the jobs, which look their points up by it again and again
      const id = sameWord(side === null ? sheet.name : `${sheet.name}.${side}`);
      points.set(id, {
        id,
        name: sheet.name,
        side,
        reference: position,
        sheetSigns: positionSigns(own.axes, given.key, side),
        limits: limitsOn(given, limits),
        uncertaintyMm: sheet.uncertaintyMm ?? (sheet.source ? 0 : inForce.uncertaintyMm),
        uncertaintyByAxisMm: sheet.uncertaintyByAxisMm,
        part: partOf(sheet, side, parts),
        base: sheet.base,
        fixing: sheet.fixing,
        source: sheet.source ?? inForce.source,
        origin: originOf(uri, sheet.place),
        coordinates: new Coordinates(uri, node, axes),
      });
    }
    if (uri === own.uri) reportPart(sheet, parts, draft.unread.parts, problems);
  }
  reportOrphans(draft, own, problems);
  return points;
}

/** The part of a point: a sided part's own side. */
function partOf(sheet: PointSheet, side: Point['side'], parts: ReadonlyMap<string, Part>): string | null {
  if (sheet.part === null) return null;
  const own = side === null ? sheet.part : `${nameOf(sheet.part)}.${side}`;
  if (parts.has(own)) return own;
  return parts.has(sheet.part) && sideOf(sheet.part) === null ? sheet.part : null;
}

function reportPart(
  sheet: PointSheet,
  parts: ReadonlyMap<string, Part>,
  unread: ReadonlySet<string>,
  problems: Problem[],
): void {
  const { part, partPlace: place } = sheet;
  if (part === null || place === null || unread.has(part)) return;
  const isCentre = sheet.positions.some(({ side }) => side === null);
  const bare = nameOf(part);
  if (parts.has(part) && bare !== part && !isCentre) {
    problems.push({
      rule: 'name/unknown-part',
      place,
      message: `${part} is the part of one side: write ${bare}, each point takes its own side's`,
      replacements: [{ title: `Change to ${bare}`, place, text: bare }],
    });
    return;
  }
  const found = resolvedId(part, parts, !isCentre);
  if (found.kind === 'unknown') {
    const suggesting = problems.length < mostSuggested;
    const meant = suggesting ? meantIds(isCentre ? part : bare, parts, !isCentre) : [];
    problems.push(unknownName('part', part, place, isCentre ? meant : meant.map(nameOf)));
  } else if (found.kind === 'needs-side') {
    problems.push({
      rule: 'name/needs-side',
      place,
      message: `${part} exists on both sides and ${sheet.name} is a centre point: write ${found.ids.join(' or ')}`,
      replacements: found.ids.map((text) => ({ title: `Change to ${text}`, place, text })),
    });
  }
}

/** A removed part that inherited points still stand on. */
function reportOrphans(draft: Draft, own: ChassisSheet, problems: Problem[]): void {
  for (const [name, part] of own.parts) {
    if (!('removed' in part) || draft.parts.has(name)) continue;
    const orphans = [...draft.points.values()].filter(
      ({ sheet, uri }) => sheet.part === name && uri !== own.uri,
    );
    if (orphans.length === 0) continue;
    problems.push({
      rule: 'name/unknown-part',
      place: part.removed,
      message: `${name} is removed, but ${orphans.map(({ sheet }) => sheet.name).join(', ')} ${orphans.length === 1 ? 'stands' : 'stand'} on it: remove ${orphans.length === 1 ? 'it' : 'them'} too, or give another part`,
    });
  }
}
