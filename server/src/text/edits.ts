import { coreValueOf } from './core-schema';
import { beginsPlain } from './key-line';
import { type LineTable, linesOf } from './lines';
import { type MapEntry, type MapNode, type Node, offsetsOf, type SequenceNode, type TextTree } from './tree';

/** Absolute offsets in the text before the edit, half-open. */
export interface TextEdit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** The text after edits, whose offsets all mean the text before them. Edits must not overlap; of two at one place the earlier in the list comes first. */
export const applyEdits = (text: string, edits: readonly TextEdit[]): string => {
  const ordered = [...edits].sort((a, b) => a.start - b.start || a.end - b.end);
  let result = '';
  let done = 0;
  for (const edit of ordered) {
    if (edit.start < done) throw new RangeError(`edits overlap at offset ${edit.start}`);
    result += text.slice(done, edit.start) + edit.text;
    done = edit.end;
  }
  return result + text.slice(done);
};

const INDENT_STEP = 2;

/** The file's own line break: the first that occurs in it. */
export const lineBreakOf = (text: string): string => /\r\n|\n|\r/.exec(text)?.[0] ?? '\n';

/**
 * Adds an entry to a map after `after` (absent: after its last entry) and touches no other character.
 * `valueLines[0]` stands after the colon ('' for a nested value), each further line one step deeper on its own line:
 * `['', 'body: …']` writes a nested map, `['rk']` a word. Values are text as it shall stand in the file; see
 * `plainOrQuoted`. Null for a map in braces when the value has several lines or cannot stand in braces.
 */
export const entryInsertion = (
  tree: TextTree,
  map: MapNode,
  key: string,
  valueLines: readonly string[],
  after: MapEntry | undefined = map.entries[map.entries.length - 1],
): TextEdit | null => {
  const name = plainOrQuoted(key, map.flow ? 'flow' : 'block');
  if (map.flow) return flowInsertion(tree, map, name, valueLines, after);
  if (!after) return null;
  const lines = linesOf(tree.text);
  const column = columnOf(tree.text, lines, offsetsOf(map.entries[0].key.place).start);
  const [first, ...rest] = blockValue(valueLines, column, ' ');
  const written = [`${' '.repeat(column)}${name}:${first}`, ...rest];
  return lineInsertion(tree.text, lines, after.value ?? after.key, offsetsOf(after.place).end, written);
};

/**
 * Writes the value of an entry anew; key, trailing comment and everything else stay. `valueLines` as for `entryInsertion`.
 * Null for a map in braces as there.
 */
export const entryReplacement = (
  tree: TextTree,
  map: MapNode,
  entry: MapEntry,
  valueLines: readonly string[],
): TextEdit | null => {
  if (map.flow && !fitsInFlow(valueLines)) return null;
  const { text } = tree;
  const { start: entryStart, end } = offsetsOf(entry.place);
  const keyEnd = offsetsOf(entry.key.place).end;
  const [, colon = '', blanks = ''] = /^([ \t]*:)?([ \t]*)/.exec(text.slice(keyEnd, end)) ?? [];
  const start = keyEnd + colon.length;
  // Aligned columns stay aligned.
  const stands = entry.value !== null && start + blanks.length === offsetsOf(entry.value.place).start;
  const value = blockValue(valueLines, columnOf(text, linesOf(text), entryStart), (stands && blanks) || ' ');
  return { start, end, text: (colon ? '' : ':') + value.join(lineBreakOf(text)) };
};

/** Adds an entry to a block list after `after` (absent: after its last): the first line behind the dash, the others below it. Null for a list in brackets. */
export const itemInsertion = (
  tree: TextTree,
  sequence: SequenceNode,
  itemLines: readonly string[],
  after: Node | undefined = sequence.items[sequence.items.length - 1],
): TextEdit | null => {
  if (sequence.indent === undefined || !after) return null;
  const lines = linesOf(tree.text);
  const { end } = offsetsOf(after.place);
  const indent = ' '.repeat(sequence.indent);
  const written = itemLines.map((line, index) =>
    line ? `${indent}${index === 0 ? '- ' : '  '}${line}` : '',
  );
  return lineInsertion(tree.text, lines, after, end, written);
};

/**
 * Lines of comment as if they were further entries of the map that an entry holds, below its last; where it holds nothing, one step deeper
 * than the entry. Null for a map in braces.
 */
export const commentInsertion = (
  tree: TextTree,
  holder: MapNode,
  entry: MapEntry,
  comments: readonly string[],
): TextEdit | null => {
  const { value } = entry;
  if (holder.flow || (value !== null && (value.kind !== 'map' || value.flow))) return null;
  const last = value?.kind === 'map' ? value.entries.at(-1) : undefined;
  const lines = linesOf(tree.text);
  const column = columnOf(tree.text, lines, offsetsOf((last ?? entry).key.place).start);
  const indent = ' '.repeat(last === undefined ? column + INDENT_STEP : column);
  const below = last ?? entry;
  const written = comments.map((comment) => indent + comment);
  return lineInsertion(tree.text, lines, below.value ?? below.key, offsetsOf(below.place).end, written);
};

/** A byte-order mark takes no column. */
const columnOf = (text: string, lines: LineTable, offset: number): number => {
  const { line, character } = lines.positionAt(offset);
  return line === 0 && text.startsWith('\uFEFF') ? character - 1 : character;
};

/** What stands behind the colon, and the lines below it. */
const blockValue = (valueLines: readonly string[], column: number, gap: string): string[] => {
  const [first = '', ...rest] = valueLines;
  const indent = ' '.repeat(column + INDENT_STEP);
  return [first && gap + first, ...rest.map((line) => line && indent + line)];
};

/** Whole lines below the line on which `end` lies; a comment behind the value keeps its line. */
const lineInsertion = (
  text: string,
  lines: LineTable,
  last: Node,
  end: number,
  written: readonly string[],
): TextEdit => {
  let line = lines.positionAt(end).line;
  // Below a block scalar blank lines can be its text: where it keeps them (`|+`), or where they hold spaces.
  const header = lastScalarOf(last).source;
  for (let next = line + 1; /^[|>]/.test(header) && next < lines.lineCount; next++) {
    const blank = lines.lineText(next);
    if (blank.trim() !== '') break;
    if (blank !== '' || /^.[1-9]?\+/.test(header)) line = next;
  }
  const at = lines.endOf(line);
  const lineBreak = lineBreakOf(text);
  const onNewLine = at === text.length && lines.startOf(line) === at && line > 0;
  return { start: at, end: at, text: (onNewLine ? '' : lineBreak) + written.join(lineBreak) };
};

const lastScalarOf = (node: Node): { source: string } => {
  if (node.kind === 'scalar') return node;
  const last = node.kind === 'sequence' ? node.items.at(-1) : (node.entries.at(-1)?.value ?? null);
  return last && !node.flow ? lastScalarOf(last) : { source: '' };
};

const fitsInFlow = (valueLines: readonly string[]): boolean =>
  valueLines.length === 1 && (/^["'[{]/.test(valueLines[0]) || !/[,[\]{}]/.test(valueLines[0]));

const flowInsertion = (
  tree: TextTree,
  map: MapNode,
  name: string,
  valueLines: readonly string[],
  after: MapEntry | undefined,
): TextEdit | null => {
  if (!fitsInFlow(valueLines)) return null;
  const entry = `${name}: ${valueLines[0]}`;
  if (after) {
    const at = offsetsOf(after.place).end;
    return { start: at, end: at, text: `, ${entry}` };
  }
  const { start, end } = offsetsOf(map.place);
  if (tree.text.slice(start + 1, end - 1).trim() !== '') return null;
  return { start: start + 1, end: end - 1, text: ` ${entry} ` };
};

/** Controls, line breaks of any kind, and a byte-order mark cannot be seen in a file. */
const UNSEEN = /[\x00-\x1f\x7f-\x9f\u2028\u2029\ufeff]/;

/** A text as a scalar on one line that YAML reads back as the same text: plain where it can be, else in double quotes. `flow`: between brackets. */
export const plainOrQuoted = (text: string, where: 'block' | 'flow' = 'block'): string => {
  const plain =
    text !== '' &&
    text === text.trim() &&
    !UNSEEN.test(text) &&
    beginsPlain(text, 0, text.length) &&
    !/:(?:\s|$)|\s#|^(?:---|\.\.\.)/.test(text) &&
    typeof coreValueOf(text) === 'string' &&
    (where === 'block' || !/[,[\]{}]|^[-?:]|:$/.test(text));
  if (plain) return text;
  return JSON.stringify(text).replace(
    new RegExp(UNSEEN, 'g'),
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
};
