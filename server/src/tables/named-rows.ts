import { meantIds, nameOf, type Side, sideOf } from '../model/names';
import { idsWritten, stemOf } from './sides';
import type { ReadRow, RefusedRow } from './table-rows';

/** A row whose point is known. */
export interface NamedRow extends ReadRow {
  readonly id: string;
  /** The other end of a distance. */
  readonly toId: string | null;
  /** How far it lies from the reference by which it was found, mm; null where its name says which point it is. */
  readonly byPlaceMm: number | null;
}

/** A row whose name is none of the points', with those that may be meant. */
interface UnknownRow extends RefusedRow {
  readonly source: ReadRow;
  readonly meant: readonly string[];
}

export interface Named {
  readonly rows: readonly NamedRow[];
  readonly unknown: readonly UnknownRow[];
}

/** Looks the names of rows up among the points of a body. No name is guessed: what may be meant is told. */
export function namedRows(
  rows: readonly ReadRow[],
  known: ReadonlyMap<string, unknown>,
  names: ReadonlyMap<string, string>,
): Named {
  // a table of repeats has every name many times
  const looked = new Map<Side | null | undefined, Map<string, Lookup>>();
  const lookUp = (name: string, side: Side | null | undefined): Lookup => {
    const ofSide = looked.get(side) ?? new Map<string, Lookup>();
    looked.set(side, ofSide);
    const before = ofSide.get(name);
    if (before !== undefined) return before;
    const found = foundId(name, side, known, names);
    ofSide.set(name, found);
    return found;
  };
  const done: NamedRow[] = [];
  const unknown: UnknownRow[] = [];
  for (const source of rows) {
    const found = lookUp(source.name, source.side);
    const to = otherEnd(source);
    const other = to === null ? null : lookUp(to, undefined);
    const fault = 'message' in found ? found : other !== null && 'message' in other ? other : null;
    if (fault !== null)
      unknown.push({
        ...fault,
        row: source.row,
        sheet: source.sheet,
        column: null,
        cells: source.cells,
        source,
      });
    else if ('id' in found)
      done.push(namedRow(source, found.id, other !== null && 'id' in other ? other.id : null, null));
  }
  return { rows: done, unknown };
}

/** Written out: a spread of so many fields takes six times the memory, and a table may have a hundred thousand rows. */
export const namedRow = (
  { row, sheet, name, side, value, remark, stage, more, cells }: ReadRow,
  id: string,
  toId: string | null,
  byPlaceMm: number | null,
): NamedRow => ({
  row,
  sheet,
  name,
  side,
  value,
  remark,
  stage,
  more,
  cells,
  id,
  toId,
  byPlaceMm,
});

const otherEnd = ({ value }: ReadRow): string | null => (value.kind === 'numbers' ? null : value.to);

type Lookup = { readonly id: string } | { readonly message: string; readonly meant: readonly string[] };

function foundId(
  name: string,
  side: Side | null | undefined,
  known: ReadonlyMap<string, unknown>,
  names: ReadonlyMap<string, string>,
): Lookup {
  const mapped = (side ? names.get(`${name} ${side}`) : undefined) ?? names.get(name);
  const ids =
    mapped === undefined
      ? candidateIds(name, side)
      : candidateIds(mapped, sideOf(mapped) === null ? side : undefined, true);
  const found = [...new Set(ids.filter((id) => known.has(id)))];
  if (found.length === 1) return { id: found[0] };
  if (found.length > 1) return { message: `${name} may be ${found.join(' or ')}`, meant: found };
  const sided = ids.flatMap((id) => [`${id}.L`, `${id}.R`]).filter((id) => known.has(id));
  if (sided.length > 0)
    return { message: `${name} is on both sides, and the row says neither`, meant: sided };
  const meant = [...new Set(ids.flatMap((id) => meantIds(id, known, false)))].slice(0, 4);
  const rather = meant.length > 0 ? `; is it ${meant.join(' or ')}?` : '';
  return { message: `${name}${side ? ` ${side}` : ''} is no point of the body${rather}`, meant };
}

/** Ids by all ways of writing a side, those with the side of the row where it has one. @param exact as it is written first */
export function candidateIds(name: string, side: Side | null | undefined, exact = false): string[] {
  const ids = [...(exact ? [name] : []), ...idsWritten(name)];
  if (!side) return ids;
  // a name that repeats its side has it once; one that says the other is none
  return [
    ...ids.filter((id) => sideOf(id) === side).map((id) => `${nameOf(id)}.${side}`),
    `${stemOf(name)}.${side}`,
  ];
}
