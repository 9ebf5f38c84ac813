/** What is sealed: plain data of which the same content always gives the same bytes. */
export type Plain =
  | string
  | number
  | boolean
  | null
  | undefined
  | readonly Plain[]
  | { readonly [key: string]: Plain };

/**
 * JSON after RFC 8785, of numbers rounded to 6 decimals (half away from zero, no negative zero) and without what is empty: null, an empty
 * list, an empty map. Undefined where nothing is left.
 */
export function canonicalJson(value: Plain): string | undefined {
  if (value === null || value === undefined) return undefined;
  if (typeof value === 'number') return JSON.stringify(rounded(value));
  if (typeof value !== 'object') return JSON.stringify(value);
  if (isList(value)) {
    const items = value.flatMap((item) => canonicalJson(item) ?? []);
    return items.length === 0 ? undefined : `[${items.join(',')}]`;
  }
  // the order of UTF-16 units, which RFC 8785 asks for, is the one that sort() has
  const pairs = Object.keys(value)
    .sort()
    .flatMap((key) => {
      const text = canonicalJson(value[key]);
      return text === undefined ? [] : [`${JSON.stringify(key)}:${text}`];
    });
  return pairs.length === 0 ? undefined : `{${pairs.join(',')}}`;
}

const isList = (value: Plain): value is readonly Plain[] => Array.isArray(value);

const perUnit = 1e6;

const rounded = (value: number): number =>
  (Math.sign(value) * Math.round(Math.abs(value) * perUnit)) / perUnit + 0;

/** A list of names, or of anything, whose order says nothing: sorted by its text, nothing twice. */
export const sortedSet = (items: readonly Plain[]): Plain[] => {
  const byText = new Map(items.map((item) => [canonicalJson(item) ?? '', item]));
  return [...byText.keys()].sort().map((text) => byText.get(text));
};
