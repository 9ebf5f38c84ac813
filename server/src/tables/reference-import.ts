import type { Compared, Donor, Reference } from '../inspection/cars/references';
import {
  apartFrom,
  beyondLimits,
  comparedPoint,
  disagreeing,
  referenceOf,
} from '../inspection/cars/references';
import type { Chassis, Point } from '../model/chassis';
import { nameOf } from '../model/names';
import { chassisSheet } from '../model/read/chassis-from-text';
import {
  applyEdits,
  commentInsertion,
  entryInsertion,
  entryReplacement,
  plainOrQuoted,
  type TextEdit,
} from '../text/edits';
import { entryOf, type MapNode, type TextTree } from '../text/tree';
import { parseText } from '../text/yaml/parse';
import { anewText, comparedText, doubtfulText, keptText, referenceLines } from '../wording/reference-words';
import { positionText, referenceRow, sourceText, uncertaintyText } from './reference-rows';

interface Asked {
  /** Names of points, without sides; null: all that the cars read and the file does not have. */
  readonly names: readonly string[] | null;
  /** Points that the file has already are written anew. */
  readonly replace: boolean;
}

export interface ReferencesMade {
  /** The whole file with the new points; null where there is nothing to write, or its text cannot take them. */
  readonly text: string | null;
  /** What makes it of the file's text. */
  readonly edits: readonly TextEdit[];
  readonly said: readonly string[];
  /** Points that the file has, as the cars have them: those that do not agree first. */
  readonly compared: readonly string[];
  /** What was asked for and is not given. */
  readonly refused: readonly string[];
  readonly given: number;
}

interface Body {
  readonly tree: TextTree;
  readonly chassis: Chassis;
}

/** New points of a body by cars; points that it has already are compared, and written anew only where that is asked for. */
export function referencesInto(body: Body, donors: readonly Donor[], asked: Asked): ReferencesMade {
  const { chassis } = body;
  const known = knownByName(chassis);
  const read = new Set(donors.flatMap(({ car }) => [...car.points.keys()].map(nameOf)));
  const names = [...(asked.names ?? [...read].filter((name) => !hasAll(name, donors, chassis)))];
  const said: string[] = [];
  const refused: string[] = [];
  const fresh: Reference[] = [];
  const anew: Reference[] = [];
  for (const name of names) {
    const reference = read.has(name) ? referenceOf(name, donors, chassis) : null;
    if (reference === null) refused.push(`${name}: none of these cars has a reading of it that can be used`);
    else {
      const had = known.get(name) ?? [];
      const why = had.length === 0 ? null : whyKept(had, chassis, asked);
      const off = had.flatMap((point) => offFrom(reference, point));
      const lines = referenceLines(reference, chassis.unit);
      if (reference.positions.length === 0) refused.push(...lines);
      else if (why !== null) refused.push(`${name}: ${why}`);
      else if (asked.names === null && off.length > 0)
        refused.push(...off.map((each) => keptText(each, chassis.unit)));
      else if (asked.names === null && reference.apart !== null && reference.unproven.length > 0)
        refused.push(doubtfulText(name, reference.apart, chassis.unit));
      else {
        said.push(...lines);
        if (had.length > 0) said.push(...anewText(had, reference, off, chassis.unit));
        (had.length === 0 ? fresh : anew).push(reference);
      }
    }
  }
  const compared = comparedLines(known, { names, read, all: asked.names === null }, donors, chassis);
  const edits = editsOf(body, fresh, anew);
  if ('refused' in edits)
    return { text: null, edits: [], said, compared, refused: [...refused, ...edits.refused], given: 0 };
  const given = fresh.length + anew.length;
  const text =
    given === 0 ? null : proved(body, applyEdits(body.tree.text, edits.edits), [...fresh, ...anew]);
  return { text, edits: text === null ? [] : edits.edits, said, compared, refused, given };
}

function knownByName({ points }: Chassis): Map<string, Point[]> {
  const known = new Map<string, Point[]>();
  for (const point of points.values()) known.set(point.name, [...(known.get(point.name) ?? []), point]);
  return known;
}

/** The file has every point of the name that a car read. */
const hasAll = (name: string, donors: readonly Donor[], { points }: Chassis): boolean =>
  donors.every(({ car }) => [...car.points.keys()].every((id) => nameOf(id) !== name || points.has(id)));

/** Why a point that is in the file is not written. */
function whyKept(had: readonly Point[], { uri }: Chassis, { replace }: Asked): string | null {
  if (!replace) return `it is in the file already, and stays as it is: --replace writes it anew`;
  if (had.some(({ base }) => base)) return 'it is a control point: the cars were aligned on it';
  if (had.some(({ origin }) => origin.uri !== uri)) return 'it stands in a file that this one extends';
  return null;
}

function offFrom(reference: Reference, point: Point): NonNullable<ReturnType<typeof apartFrom>>[] {
  const apart = apartFrom(reference, point);
  return apart === null || beyondLimits(apart).length === 0 ? [] : [apart];
}

/** Every point that both have, those that do not agree first, so that nobody overlooks what the cars say of the file. */
function comparedLines(
  known: ReadonlyMap<string, readonly Point[]>,
  { names, read, all }: { names: readonly string[]; read: ReadonlySet<string>; all: boolean },
  donors: readonly Donor[],
  chassis: Chassis,
): string[] {
  const compared = [...known].flatMap(([name, points]) =>
    read.has(name) && (all || names.includes(name))
      ? points.flatMap((point) => comparedPoint(point, donors, chassis) ?? [])
      : [],
  );
  const isOff = (each: Compared): boolean => disagreeing(each).length > 0;
  return [...compared.filter(isOff), ...compared.filter((each) => !isOff(each))].map((each) =>
    comparedText(each, chassis.unit),
  );
}

type Edits = { readonly edits: readonly TextEdit[] } | { readonly refused: readonly string[] };

function editsOf({ tree, chassis }: Body, fresh: readonly Reference[], anew: readonly Reference[]): Edits {
  const { root } = tree;
  const cannot = (name: string) => ({ refused: [`${name}: the text of the file cannot take it`] });
  if (root?.kind !== 'map') return cannot('points');
  const held = entryOf(root, 'points');
  const edits: TextEdit[] = [];
  for (const reference of anew) {
    const entry = entryOf(held?.value, reference.name);
    if (entry?.value?.kind !== 'map') return cannot(reference.name);
    const changed = replacingEdits(tree, entry.value, reference, chassis);
    if (typeof changed === 'string') return { refused: [`${reference.name}: ${changed}`] };
    edits.push(...changed);
  }
  if (fresh.length > 0) {
    const width = fresh.reduce((most, { name }) => Math.max(most, plainOrQuoted(name).length + 1), 0);
    const lines = fresh.flatMap((reference) => referenceRow(reference, chassis, width));
    const added =
      held === undefined
        ? entryInsertion(tree, root, 'points', ['', ...lines])
        : commentInsertion(tree, root, held, lines);
    if (added === null) return cannot('points');
    edits.push(added);
  }
  return { edits };
}

/** A point written anew keeps its keys and its comments; its numbers, their uncertainty and their source are others. */
function replacingEdits(
  tree: TextTree,
  map: MapNode,
  reference: Reference,
  chassis: Chassis,
): TextEdit[] | string {
  const values = new Map<string, string>();
  for (const position of reference.positions) {
    const keys =
      position.key === 'both' && entryOf(map, 'both') === undefined
        ? (['left', 'right'] as const)
        : [position.key];
    for (const key of keys) {
      if (entryOf(map, key) === undefined) return `it is not given by \`${key}\`: change it by hand`;
      values.set(
        key,
        positionText(
          key === 'right' && position.key === 'both' ? mirroredPosition(position) : { ...position, key },
          chassis,
        ),
      );
    }
  }
  const stale = (['both', 'left', 'right', 'centre'] as const).find(
    (key) => entryOf(map, key) !== undefined && !values.has(key),
  );
  if (stale !== undefined) return `\`${stale}\` would keep its old numbers: change it by hand`;
  values.set('uncertainty', uncertaintyText(reference.uncertainty, chassis));
  values.set('source', sourceText(reference));
  const added: string[] = [];
  const edits: (TextEdit | null)[] = [];
  for (const [key, value] of values) {
    const entry = entryOf(map, key);
    if (entry === undefined) added.push(key);
    else edits.push(entryReplacement(tree, map, entry, [value]));
  }
  for (const key of added) edits.push(entryInsertion(tree, map, key, [values.get(key) ?? '']));
  const whole = edits.filter((edit) => edit !== null);
  return whole.length === edits.length ? whole : 'its text cannot take the numbers: change it by hand';
}

const mirroredPosition = ({ over }: Reference['positions'][number]): Reference['positions'][number] => ({
  key: 'right',
  over: { ...over, at: [over.at[0], 0 - over.at[1], over.at[2]] },
});

/** The new text, where it reads back whole and with every point that was written. */
function proved({ chassis }: Body, text: string, given: readonly Reference[]): string | null {
  const tree = parseText(text);
  const { points, broken } = chassisSheet(chassis.uri, tree);
  return tree.problems.length === 0 && !broken && given.every(({ name }) => points.has(name)) ? text : null;
}
