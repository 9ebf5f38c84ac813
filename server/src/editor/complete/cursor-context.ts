import type { TextRange } from '../../findings/rule/finding';
import { type LineTable, linesOf } from '../../text/lines';
import { Block, type EnclosingItem } from './cursor-block';
import { type FlowFrame, flowAt } from './cursor-flow';
import { lineHead } from './line-head';

/**
 * What is being written at the cursor. It is read off the lines round it, by their indents and brackets, because the line being typed
 * is seldom sound: a tree of it does not have what is only half there.
 */
export interface CursorContext {
  /**
   * `comment`; `key`: a key of the map at `path`, or on a line of its own that map's whole value; `value`: what stands at `path`.
   */
  readonly role: 'comment' | 'key' | 'value';
  /** Keys from the root down; `-` for an item of a list. */
  readonly path: readonly string[];
  /** Which item of the innermost list in brackets; null outside of one. */
  readonly index: number | null;
  /** The scalar that is being typed, to where it ends. `typed`: its part before the cursor. */
  readonly word: TextRange;
  readonly typed: string;
  /** A colon stands behind the word already. */
  readonly hasColon: boolean;
  /** A space is still missing between a colon and the cursor. */
  readonly needsSpace: boolean;
  /** In brackets or braces. */
  readonly inFlow: boolean;
  /** Other keys of the same map, or items of the same list in brackets, in text order, and the one before the cursor. */
  readonly siblings: readonly string[];
  readonly above: string | null;
  readonly item: EnclosingItem | null;
  /** A dash begins the line, and nothing of its item stands before the word. */
  readonly beginsItem: boolean;
}

export function cursorContext(text: string, offset: number): CursorContext {
  const lines = linesOf(text);
  const { line } = lines.positionAt(offset);
  const flow = flowAt(text, lines, offset);
  const headLine = flow?.line ?? line;
  const upTo = headLine === line ? text.slice(lines.startOf(line), offset) : lines.lineText(headLine);
  const head = lineHead(upTo);
  const block = new Block(lines, headLine, head);
  const base: Base = {
    item: block.item(),
    hasColon: false,
    needsSpace: false,
    index: null,
    beginsItem: false,
    inFlow: flow !== null,
  };
  const comment = flow === null ? commentStart(upTo) : -1;
  if (comment >= 0) {
    const word = { start: lines.startOf(line) + comment, end: offset };
    const typed = text.slice(word.start, offset);
    return { ...base, role: 'comment', path: block.path, word, typed, siblings: [], above: null };
  }
  if (flow) {
    const path = [...block.path, ...(head.key === null ? [] : [head.key])];
    return inFlow(text, offset, flow.frames, path, base);
  }
  const valueStart = head.key === null ? null : lines.startOf(line) + head.valueColumn;
  if (head.key !== null && valueStart !== null && offset >= valueStart) {
    const word = wordFrom(text, skipBlanks(text, valueStart, offset), offset, lines);
    const path = [...block.path, head.key];
    const needsSpace = offset === valueStart;
    return { ...base, role: 'value', path, ...word, needsSpace, siblings: [], above: null };
  }
  const start = lines.startOf(line) + head.column;
  const word = wordFrom(text, Math.min(start, offset), offset, lines);
  const { siblings, above } = block.siblings();
  return {
    ...base,
    role: 'key',
    path: block.path,
    ...word,
    siblings,
    above,
    beginsItem: head.dashes.length > 0,
    needsSpace: head.dashes.some((dash) => lines.startOf(line) + dash + 1 === offset),
  };
}

type Base = Pick<CursorContext, 'item' | 'hasColon' | 'needsSpace' | 'index' | 'beginsItem' | 'inFlow'>;

function inFlow(
  text: string,
  offset: number,
  frames: readonly FlowFrame[],
  before: readonly string[],
  base: Base,
): CursorContext {
  const path = [...before, ...frames.slice(0, -1).map(({ open, key }) => (open === '[' ? '-' : (key ?? '')))];
  const last = frames[frames.length - 1];
  const word = wordFrom(text, skipBlanks(text, last.from, offset), offset, linesOf(text));
  const behind = /^[^}\]\r\n]*/.exec(text.slice(offset, offset + 1000))?.[0] ?? '';
  const later =
    last.open === '['
      ? behind
          .split(',')
          .slice(1)
          .map((item) => item.trim())
      : [...behind.matchAll(/[,\s]([\w-]+):(?=\s|$)/g)].map(([, key]) => key);
  const shared = { ...base, ...word, siblings: [...last.done, ...later], above: last.done.at(-1) ?? null };
  if (last.open === '[') return { ...shared, role: 'value', path: [...path, '-'], index: last.index };
  if (last.key === null) return { ...shared, role: 'key', path };
  return { ...shared, role: 'value', path: [...path, last.key], needsSpace: text[offset - 1] === ':' };
}

const skipBlanks = (text: string, start: number, end: number): number => {
  let at = start;
  while (at < end && /\s/.test(text[at])) at++;
  return at;
};

/** The word round the cursor, to where the scalar ends that it stands in. */
function wordFrom(
  text: string,
  start: number,
  offset: number,
  lines: LineTable,
): Pick<CursorContext, 'word' | 'typed' | 'hasColon'> {
  const lineEnd = lines.endOf(lines.positionAt(offset).line);
  const rest = /^[^\s,[\]{}:#]*/.exec(text.slice(offset, lineEnd))?.[0] ?? '';
  const end = offset + rest.length;
  return {
    word: { start, end },
    typed: text.slice(start, offset),
    hasColon: /^\s*:/.test(text.slice(end, lineEnd)),
  };
}

/** Where a comment begins in a line's text, outside of quotes, closed or not; -1 where none does. */
function commentStart(line: string): number {
  const unquoted = line.replace(
    /(?<=^|[\s[{,:])(?:"(?:[^"\\]|\\.)*(?:"|$)|'(?:[^']|'')*(?:'|$))/g,
    (quoted) => '"'.repeat(quoted.length),
  );
  return unquoted.search(/(?<=^|\s)#/);
}
