import { longestName } from '@framewright/schemas';
import { distance } from 'fastest-levenshtein';
import { derived } from '../memory/derived';

export type Side = 'L' | 'R';

/** The side that an id names, null on a centre point or an unsided part. */
export const sideOf = (id: string): Side | null => (id.endsWith('.L') ? 'L' : id.endsWith('.R') ? 'R' : null);

/** An id without its side. */
export const nameOf = (id: string): string => (sideOf(id) === null ? id : id.slice(0, -2));

/** The id on the other side; null where there is no side. */
export const mirroredId = (id: string): string | null => {
  const side = sideOf(id);
  return side === null ? null : `${nameOf(id)}.${side === 'L' ? 'R' : 'L'}`;
};

/** The known name that a mistyped one most likely means; undefined where none is near. Ties go to the first in order. */
export function nearest<Name extends string>(name: string, known: Iterable<Name>): Name | undefined {
  if (name.length > longestName) return undefined;
  let best: Name | undefined;
  // of a word of three letters hardly anything is left once two are wrong
  let bestDistance =
    (name.length <= 3 ? Math.min(1, name.length - 1) : Math.max(2, Math.floor(name.length / 3))) + 1;
  const lower = name.toLowerCase();
  for (const candidate of known) {
    if (candidate.length > longestName || Math.abs(candidate.length - name.length) >= bestDistance) continue;
    const d = slips(lower, candidate.toLowerCase());
    if (d < bestDistance) {
      best = candidate;
      bestDistance = d;
    }
  }
  return best;
}

/** How many slips of the hand lead from one word to another; two neighbouring letters exchanged are one. */
function slips(a: string, b: string): number {
  if (a.length === b.length) {
    const at = [...a].findIndex((letter, i) => letter !== b[i]);
    if (at >= 0 && a[at] === b[at + 1] && a[at + 1] === b[at] && a.slice(at + 2) === b.slice(at + 2))
      return 1;
  }
  return distance(a, b);
}

/** What an id given in a file turned out to be. */
type Resolution =
  | { kind: 'found'; ids: string[] }
  | { kind: 'needs-side'; ids: string[] }
  | { kind: 'unknown' };

/**
 * Looks an id up among known ids.
 * @param bothSides whether a bare sided name may stand for both of its sides
 */
export function resolvedId(id: string, known: ReadonlyMap<string, unknown>, bothSides: boolean): Resolution {
  if (known.has(id)) return { kind: 'found', ids: [id] };
  const sides = [`${id}.L`, `${id}.R`].filter((side) => known.has(side));
  if (sides.length === 0) return { kind: 'unknown' };
  return { kind: bothSides ? 'found' : 'needs-side', ids: sides };
}

/** The ids that a name stands for, where a bare sided name means both of its sides; none where it is unknown. */
export function idsNamed(id: string, known: ReadonlyMap<string, unknown>): readonly string[] {
  const found = resolvedId(id, known, true);
  return found.kind === 'unknown' ? [] : found.ids;
}

const namesIn = derived((known: ReadonlyMap<string, unknown>): string[] => [
  ...new Set([...known.keys()].map(nameOf)),
]);

/**
 * The ids that an unknown one may mean, likeliest first: its own side of the nearest name, both sides where it names none, so that
 * no side is ever guessed. @param bothSides whether a bare sided name may stand for both of its sides
 */
export function meantIds(id: string, known: ReadonlyMap<string, unknown>, bothSides: boolean): string[] {
  const names = namesIn(known);
  // `.l`, `-L`, ` R`: a side, not quite as it is written
  const written = /(?<![.\-_ ])[.\-_ ]+([LRlr])$/.exec(id);
  const stem = written === null ? id : id.slice(0, written.index);
  const letter = written?.[1];
  const name = nearest(stem, names) ?? nearest(id, names);
  if (name === undefined) return [];
  const sides = [`${name}.L`, `${name}.R`].filter((side) => known.has(side));
  if (known.has(name)) return [name];
  if (letter === undefined) return bothSides ? [name] : sides;
  const side = `${name}.${letter.toUpperCase()}`;
  return known.has(side) ? [side] : sides;
}
