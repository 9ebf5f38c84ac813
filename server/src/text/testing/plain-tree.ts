import { isAlias, isMap, isPair, isScalar, isSeq, parseAllDocuments } from 'yaml';
import { type Node, offsetsOf } from '../tree';

/** A tree of either parser as plain data with absolute offsets, so that the two can be compared. */
type Plain =
  | { value: unknown; plain: boolean; start: number; end: number }
  | { items: unknown[]; range: unknown }
  | { entries: unknown[]; range: unknown }
  | null;

/** -0 and 0 are one number here as in the text. */
const settled = (value: unknown): unknown => (Object.is(value, -0) ? 0 : value);

export const ours = (node: Node | null): Plain => {
  if (!node) return null;
  const { start, end } = offsetsOf(node.place);
  if (node.kind === 'scalar') {
    if (start === end) return null;
    return { value: settled(node.value), plain: node.plain, start, end };
  }
  const range = node.flow ? [start, end] : 'block';
  if (node.kind === 'sequence') return { items: node.items.map(ours), range };
  return { entries: node.entries.map((entry) => [ours(entry.key), ours(entry.value)]), range };
};

const trimmedEnd = (text: string, start: number, end: number): number =>
  start + text.slice(start, end).replace(/[ \r\n]+$/, '').length;

const plainOf = (text: string, node: unknown): Plain => {
  if (isScalar(node)) {
    const [start, end] = node.range as [number, number, number];
    const plain = node.type === 'PLAIN' || node.type === undefined;
    if (start === end) return null;
    return { value: settled(node.value), plain, start, end: trimmedEnd(text, start, end) };
  }
  if (isSeq(node) || isMap(node)) {
    const [start, end] = node.range as [number, number, number];
    const range = node.flow ? [start, trimmedEnd(text, start, end)] : 'block';
    if (isSeq(node)) return { items: node.items.map((item) => plainOf(text, item)), range };
    const entries = node.items.map((pair) =>
      isPair(pair) ? [plainOf(text, pair.key), plainOf(text, pair.value)] : null,
    );
    return { entries, range };
  }
  return null;
};

const options = { uniqueKeys: false, prettyErrors: false, logLevel: 'silent' } as const;

/** What the `yaml` package reads from a whole text. */
export const theirs = (text: string): Plain => {
  const documents = parseAllDocuments(withoutMark(text), options);
  return documents.length === 0 ? null : plainOf(withoutMark(text), documents[0].contents);
};

/** The package loses count of the columns behind a byte-order mark: an empty line keeps the offsets. */
const withoutMark = (text: string): string => text.replace(/^\uFEFF/, '\n');

/** The same, or undefined where it reports anything, or where our language is narrower than YAML. */
export const theirsIfSound = (text: string): Plain | undefined => {
  // A lone \r is a line break to us, as in YAML 1.2.2, but not to the package; aliases keep their own places with us.
  if (/\0|.\uFEFF|\r(?!\n)|[*%!]|^\uFEFF?(?:[<|>]{7}|={7})/ms.test(text)) return undefined;
  // Neither does YAML allow what the package lets pass here: a colon on the line after its key, a quote that '' leaves open.
  if (/^[ \t]*:(?:\s|$)|[^'\s]''[ \t]*\r?$/m.test(text)) return undefined;
  // An anchor on a line of its own between a key and its dashes is reported by us.
  if (/^[ \t]*&\S+[ \t]*(?:#.*)?\r?$/m.test(text)) return undefined;
  const documents = parseAllDocuments(withoutMark(text), options);
  if (documents.length > 1 || ('empty' in documents && documents.empty)) return undefined;
  const [document] = documents;
  if (!document || document.errors.length > 0 || document.warnings.length > 0) return undefined;
  return hasKeysThatAreNoWords(document.contents) ? undefined : plainOf(withoutMark(text), document.contents);
};

const hasKeysThatAreNoWords = (node: unknown): boolean => {
  if (isAlias(node)) return true;
  if (isSeq(node)) return node.items.some(hasKeysThatAreNoWords);
  if (!isMap(node)) return false;
  return node.items.some(
    (pair) => !isScalar(pair.key) || pair.key.source === '' || hasKeysThatAreNoWords(pair.value),
  );
};
