import type { DiffChange } from '@framewright/schemas';
import { figure } from '../model/units';

/** What two sides have in common, and what only one has. */

export interface Pair<T> {
  /** Null: only the other side has it. At least one is none. */
  readonly before: T | null;
  readonly after: T | null;
}

export const changeOf = (what: string, before: string | null, after: string | null): DiffChange[] =>
  before === after ? [] : [{ what, before, after }];

/** By key; in the order of the second map, then what only the first has. */
export function pairedMaps<T>(
  before: ReadonlyMap<string, T>,
  after: ReadonlyMap<string, T>,
): { readonly key: string; readonly pair: Pair<T> }[] {
  return [...new Set([...after.keys(), ...before.keys()])].map((key) => ({
    key,
    pair: { before: before.get(key) ?? null, after: after.get(key) ?? null },
  }));
}

/** Under its name; the second of one name is another. */
function byName<T>(items: readonly T[], nameOf: (item: T) => string): Map<string, T> {
  const named = new Map<string, T>();
  const counts = new Map<string, number>();
  for (const item of items) {
    const name = nameOf(item);
    const count = (counts.get(name) ?? 0) + 1;
    counts.set(name, count);
    named.set(count === 1 ? name : `${name}\n${count}`, item);
  }
  return named;
}

/**
 * By name; one that only one side has belongs to one of the other side with the same content, which has another name then.
 * @param isSame whether two are one, but for the name
 */
export function paired<T>(
  before: readonly T[],
  after: readonly T[],
  nameOf: (item: T) => string,
  isSame: (one: T, other: T) => boolean,
): Pair<T>[] {
  const pairs = pairedMaps(byName(before, nameOf), byName(after, nameOf)).map(({ pair }) => pair);
  const lone = new Set(
    pairs.flatMap((pair) => (pair.after === null && pair.before !== null ? [pair.before] : [])),
  );
  return pairs.flatMap((pair): Pair<T>[] => {
    if (pair.after === null) return pair.before !== null && lone.has(pair.before) ? [pair] : [];
    if (pair.before !== null) return [pair];
    const { after: now } = pair;
    const was = [...lone].find((each) => isSame(each, now));
    if (was === undefined) return [pair];
    lone.delete(was);
    return [{ before: was, after: now }];
  });
}

/** Numbers that differ by less are the same: a file in inches is converted. */
const leastDifference = 1e-6;

export const differs = (one: number, other: number): boolean => Math.abs(one - other) > leastDifference;

export const anyDiffers = (one: readonly number[], other: readonly number[]): boolean =>
  one.length !== other.length || one.some((each, k) => differs(each, other[k]));

/** What says where something stands, or is there for people alone. */
const unsaid = new Set(['kind', 'place', 'origin', 'plan', 'holdsUnclear']);

const isSaid = (key: string): boolean => !unsaid.has(key) && !key.endsWith('Place');

const keyWords: Readonly<Record<string, string>> = {
  atMm: 'at',
  cutsMm: 'at',
  toCelsius: 'to',
  forSeconds: 'for',
  forceKn: 'force',
  uncertaintyMm: 'uncertainty',
  repeatabilityMm: 'repeatability',
  spanUncertaintyMm: 'span uncertainty',
  fromMm: 'from',
  toMm: 'to',
};

export const keyWord = (key: string): string => keyWords[key] ?? key;

/** What is stated, without its places in the text: lengths mm, forces kN, temperatures °C, times s. Null: nothing. */
export function inWords(value: unknown): string | null {
  if (value === null || value === undefined || value === false || value === '') return null;
  if (typeof value === 'number') return String(Number(figure(value, 4)));
  if (typeof value !== 'object') return value === true ? 'yes' : String(value);
  if (Array.isArray(value)) return listInWords(value);
  const pairs = statedIn(value);
  if (pairs.length === 1 && pairs[0][0] === 'id') return pairs[0][1];
  return pairs.length === 0 ? null : pairs.map(([key, said]) => `${keyWord(key)} ${said}`).join(', ');
}

function listInWords(list: readonly unknown[]): string | null {
  const items = list.flatMap((each) => inWords(each) ?? []);
  if (items.length === 0) return null;
  return list.every((each) => typeof each === 'number') ? `[${items.join(', ')}]` : items.join('; ');
}

/** What an object states, key by key. */
export function statedIn(value: object): [key: string, said: string][] {
  const entries: [unknown, unknown][] = value instanceof Map ? [...value] : Object.entries(value);
  return entries.flatMap(([key, each]): [string, string][] => {
    const said = typeof key === 'string' && isSaid(key) ? inWords(each) : null;
    return said === null ? [] : [[String(key), said]];
  });
}

/** What two objects of a kind state differently. */
export function statedChanges(before: object, after: object): DiffChange[] {
  return pairedMaps(new Map(statedIn(before)), new Map(statedIn(after))).flatMap(({ key, pair }) =>
    changeOf(keyWord(key), pair.before, pair.after),
  );
}
