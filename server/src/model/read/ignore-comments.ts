import type { LineTable } from '../../text/lines';
import { linesOf } from '../../text/lines';
import { entryOf, type MapNode, type Node, offsetsOf, type TextTree, textOf } from '../../text/tree';
import type { GivenIgnore } from '../job';

/** `# framewright-ignore RULE: reason`, on the line that it is about or alone on the line above. */
export interface Ignore {
  readonly rule: string;
  /** Where the rule's name begins. */
  readonly ruleStart: number;
  /** What stands behind the colon, whether it is a reason or not. */
  readonly reason: string;
  readonly start: number;
  readonly end: number;
  /** The line that it is about. */
  readonly line: number;
}

const pattern = /(?:^|(?<=\s))#\s*framewright-ignore\b[ \t]*([^\s:]*)([^\r\n]*)/gm;

const word = 'framewright-ignore';
const behindHash = new RegExp(`\\s*${word}`, 'y');
/** In a text with more comments than this the word is looked for at once. */
const fewComments = 100;

/** Asked at each edit: a text is looked through for one character many times as fast as for a word. */
export function mayHoldIgnores(text: string): boolean {
  let at = text.indexOf('#');
  for (let seen = 0; at >= 0 && seen < fewComments; seen++) {
    behindHash.lastIndex = at + 1;
    if (behindHash.test(text)) return true;
    at = text.indexOf('#', at + 1);
  }
  return at >= 0 && text.includes(word, at);
}

export function ignoresIn(text: string, lines: LineTable): Ignore[] {
  return [...text.matchAll(pattern)].map((match) => {
    const start = match.index;
    const [comment, rule, rest] = match;
    const { line } = lines.positionAt(start);
    const alone = lines.lineText(line).trimStart().startsWith('#');
    const behind = rest.trim();
    return {
      rule,
      ruleStart: start + comment.length - rest.length - rule.length,
      reason: (behind.startsWith(':') ? behind.slice(1) : behind).trim(),
      start,
      end: start + comment.trimEnd().length,
      line: alone ? line + 1 : line,
    };
  });
}

/** Why it may be so is said in words: a mark or a number alone tells nobody anything. */
export const isReason = (text: string): boolean => /\p{L}/u.test(text);

/**
 * The silenced lines of a job, each with where it stands: the number of its entry in the timeline (notes are not counted), with the id
 * behind it where it is a row of `readings`; else the key at the top of the file. Layout and line ends make no difference.
 */
export function givenIgnores({ root, text }: Pick<TextTree, 'root' | 'text'>): GivenIgnore[] {
  if (root?.kind !== 'map' || !mayHoldIgnores(text)) return [];
  const lines = linesOf(text);
  return ignoresIn(text, lines)
    .filter(({ rule, reason }) => rule !== '' && isReason(reason))
    .map(({ rule, reason, line }) => ({ rule, at: placeOf(root, line, lines), reason }));
}

function placeOf(root: MapNode, line: number, lines: LineTable): string {
  const block = root.entries.findLast(({ place }) => firstLine(place, lines) <= line);
  if (block === undefined) return '';
  const list = block.value;
  if (textOf(block.key) !== 'timeline' || list?.kind !== 'sequence') return textOf(block.key);
  const at = list.items.findLastIndex(({ place }) => firstLine(place, lines) <= line);
  if (at < 0) return 'timeline';
  const rows = entryOf(list.items[at], 'readings')?.value;
  const row =
    rows?.kind === 'map' ? rows.entries.find(({ place }) => firstLine(place, lines) === line) : undefined;
  const number = list.items.slice(0, at + 1).filter((item) => !isNote(item)).length;
  return row === undefined ? `${number}` : `${number} ${textOf(row.key)}`;
}

const firstLine = (place: Node['place'], lines: LineTable): number =>
  lines.positionAt(offsetsOf(place).start).line;

const isNote = (item: Node): boolean => item.kind === 'map' && textOf(item.entries[0]?.key) === 'note';
