/** A number as typed with two neighbouring digits exchanged, by the place of the first; undefined where that changes nothing. */
export function withDigitsSwapped(source: string): (string | undefined)[] {
  const exponent = source.search(/[eE]/);
  return [...source].map((a, i) => {
    const b = source[i + 1] ?? '';
    if (!/^\d{2}$/.test(a + b) || a === b || (exponent >= 0 && i > exponent)) return undefined;
    return source.slice(0, i) + b + a + source.slice(i + 2);
  });
}

/** A number as typed with the other sign. */
export const withOtherSign = (source: string): string =>
  source.startsWith('-') ? source.slice(1) : `-${source.replace(/^\+/, '')}`;
