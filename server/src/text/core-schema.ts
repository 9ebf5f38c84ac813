/**
 * What a plain scalar means: YAML 1.2.2, 10.3.2, "Tag Resolution" of the core schema.
 * A number too large for a double becomes Infinity; judging that is the model's part.
 */
export const coreValueOf = (source: string): string | number | boolean | null => {
  const first = source.charCodeAt(0);
  // Only these can begin anything but text: digits + - . ~ and the first letters of null, true, false.
  if (first >= 48 && first <= 57) return numberOf(source) ?? source;
  if (first === 43 || first === 45 || first === 46)
    return numberOf(source) ?? specialNumberOf(source) ?? source;
  const value = wordValues.get(source);
  return value === undefined ? source : value;
};

const wordValues = new Map<string, null | boolean>([
  ['', null],
  ...['~', 'null', 'Null', 'NULL'].map((word): [string, null] => [word, null]),
  ...['true', 'True', 'TRUE'].map((word): [string, boolean] => [word, true]),
  ...['false', 'False', 'FALSE'].map((word): [string, boolean] => [word, false]),
]);

const DECIMAL = /^[-+]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][-+]?[0-9]+)?$/;

const numberOf = (source: string): number | undefined => {
  if (DECIMAL.test(source)) return Number.parseFloat(source);
  if (/^0o[0-7]+$/.test(source)) return Number.parseInt(source.slice(2), 8);
  if (/^0x[0-9a-fA-F]+$/.test(source)) return Number.parseInt(source.slice(2), 16);
  return undefined;
};

const specialNumberOf = (source: string): number | undefined => {
  if (/^[-+]?\.(?:inf|Inf|INF)$/.test(source)) return source.startsWith('-') ? -Infinity : Infinity;
  return /^\.(?:nan|NaN|NAN)$/.test(source) ? Number.NaN : undefined;
};
