import type { DroppedSpan, Limits, Point, Span, WidenedSpan } from '../chassis';
import { type LimitsInForce, originOf, type SpanSheet } from '../chassis-sheet';
import type { Mention } from '../job';
import { nameOf, type Side, sideOf } from '../names';
import type { Problem } from '../problem';
import { isWider } from './limits-in-force';
import { mostSuggested, nameProblem } from './name-problems';

/** An end that a later file has moved. */
export interface MovedEnd {
  /** The first file that gives another position, or takes the point away. */
  readonly uri: string;
  /** The first that does so sideways; null: only up or down, and a level distance still holds. */
  readonly sidewaysUri: string | null;
}

/** A span as written, with what was in force in its file. */
export interface SpanInForce {
  readonly moved: ReadonlyMap<string, MovedEnd>;
  readonly sheet: SpanSheet;
  readonly uri: string;
  readonly inForce: { readonly limits: LimitsInForce; readonly uncertaintyMm: number };
}

/**
 * The spans of a body: pairs written out, and of two between the same ends the one of the later file. A distance goes when a later
 * file moves an end of it: it was measured to another place.
 * @param drafts of the outermost parent first
 * @param unread names of points that could not be read: a span to one of them is left out without a word
 * @param ownUri the file whose problems are reported; a parent's are reported at the parent
 */
export function spansOf(
  drafts: readonly SpanInForce[],
  points: ReadonlyMap<string, Point>,
  unread: ReadonlySet<string>,
  ownUri: string,
  problems: Problem[],
): { spans: Span[]; dropped: DroppedSpan[]; widened: WidenedSpan[]; missing: Mention[] } {
  const missing: Mention[] = [];
  const byEnds = new Map<string, Span[]>();
  const dropped = new Map<string, DroppedSpan>();
  const widened: WidenedSpan[] = [];
  for (const { sheet, uri, inForce, moved } of drafts) {
    const found = endsOf(sheet, points, unread, problems.length < mostSuggested);
    if (uri === ownUri) problems.push(...found.problems);
    if (uri === ownUri) missing.push(...found.missing);
    const widest = widestOf(inForce.limits);
    for (const [from, to] of found.ends) {
      const span: Span = {
        from,
        to,
        distanceMm: sheet.distanceMm,
        limits: sheet.limits ?? ([-widest, widest] satisfies Limits),
        uncertaintyMm: inForce.uncertaintyMm,
        level: sheet.level,
        origin: originOf(uri, sheet.place),
        typedDistance: sheet.typedDistance,
      };
      const key = [from, to].sort().join(' ');
      const movedId = [from, to].find((id) => moverOf(moved.get(id), sheet.level) !== null);
      dropped.delete(key);
      if (movedId !== undefined) {
        if (moverOf(moved.get(movedId), sheet.level) === ownUri)
          dropped.set(key, { ...span, limits: sheet.limits, movedId });
        continue;
      }
      const before = byEnds.get(key)?.find(({ origin }) => origin.uri !== uri);
      if (uri === ownUri && before && sheet.limits !== null && isWider(sheet.limits, before.limits))
        widened.push({ span, before });
      const beside = byEnds.get(key)?.filter((other) => other.origin.uri === uri) ?? [];
      byEnds.set(key, [...beside, span]);
    }
  }
  return { spans: [...byEnds.values()].flat(), dropped: [...dropped.values()], widened, missing };
}

/** The largest tolerance of a file's three, mm. */
export const widestOf = ([length, width, height]: LimitsInForce): number =>
  Math.max(...[length, width.both, height].map(([low, high]) => Math.max(-low, high)));

const moverOf = (moved: MovedEnd | undefined, level: boolean): string | null =>
  (level ? moved?.sidewaysUri : moved?.uri) ?? null;

interface Ends {
  readonly ends: [string, string][];
  readonly problems: Problem[];
  /** Points that a pair would need on a side where there are none. */
  readonly missing: Mention[];
}

function endsOf(
  sheet: SpanSheet,
  points: ReadonlyMap<string, Point>,
  unread: ReadonlySet<string>,
  suggesting: boolean,
): Ends {
  const { from, to, fromPlace, toPlace, pairs } = sheet;
  if (unread.has(nameOf(from)) || unread.has(nameOf(to))) return { ends: [], problems: [], missing: [] };
  const bothSides = pairs !== null;
  const problems = [
    { kind: 'point', id: from, place: fromPlace, bothSides } as const,
    { kind: 'point', id: to, place: toPlace, bothSides } as const,
  ].flatMap((end) => nameProblem(end, points, suggesting) ?? sideBesidePairs(end.id, end.place, pairs) ?? []);
  if (problems.length === 0 && from === to && pairs !== 'crossed')
    problems.push({
      rule: 'text/wrong-type',
      place: toPlace,
      message: `a span has two ends, and both are ${from}`,
    });
  if (problems.length > 0) return { ends: [], problems, missing: [] };
  if (pairs === null) return { ends: [[from, to]], problems, missing: [] };
  const sides: [Side, Side][] =
    pairs === 'straight'
      ? [
          ['L', 'L'],
          ['R', 'R'],
        ]
      : [
          ['L', 'R'],
          ['R', 'L'],
        ];
  const ends = sides.flatMap(([a, b]): [string, string][] => {
    const pair = [idOn(from, a, points), idOn(to, b, points)];
    return pair[0] === null || pair[1] === null ? [] : [[pair[0], pair[1]]];
  });
  const missing = (
    [
      [from, fromPlace],
      [to, toPlace],
    ] as const
  ).flatMap(([name, place]) =>
    (['L', 'R'] as const)
      .filter((side) => idOn(name, side, points) === null)
      .map((side) => ({ id: `${name}.${side}`, place })),
  );
  return { ends: from === to ? ends.slice(0, 1) : ends, problems, missing };
}

/** The point of a name on a side; a centre point stands on either. */
const idOn = (name: string, side: Side, points: ReadonlyMap<string, Point>): string | null =>
  points.has(name) ? name : points.has(`${name}.${side}`) ? `${name}.${side}` : null;

function sideBesidePairs(
  id: string,
  place: SpanSheet['fromPlace'],
  pairs: SpanSheet['pairs'],
): Problem | null {
  if (pairs === null || sideOf(id) === null) return null;
  const text = nameOf(id);
  return {
    rule: 'text/wrong-type',
    place,
    message: `with \`pairs\` a name is written without its side: write ${text}`,
    replacements: [{ title: `Change to ${text}`, place, text }],
  };
}
