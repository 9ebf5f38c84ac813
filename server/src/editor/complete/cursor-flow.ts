import type { LineTable } from '../../text/lines';
import { lineHead } from './line-head';

/** An open bracket before the cursor. */
export interface FlowFrame {
  readonly open: '[' | '{';
  /** Keys, or items of a list, that stand before the one being written. */
  readonly done: string[];
  /** The key whose value is being written; null in a list and before a colon. */
  key: string | null;
  /** How many commas stand before. */
  index: number;
  /** Offset at which the item, key or value being written begins. */
  from: number;
}

/** Brackets are looked for so many lines up. */
const mostLines = 40;

/** The brackets that are open at an offset, outermost first, with the line on which they open; null outside of any. */
export function flowAt(
  text: string,
  lines: LineTable,
  offset: number,
): { line: number; frames: FlowFrame[] } | null {
  const { line } = lines.positionAt(offset);
  for (let at = line; at >= 0 && at > line - mostLines; at--) {
    const head = lineHead(lines.lineText(at));
    const start = lines.startOf(at) + (head.key === null ? head.column : head.valueColumn);
    if (start <= offset) {
      const frames = framesBetween(text, start, offset);
      if (frames === null) return null;
      if (frames.length > 0) return { line: at, frames };
    }
    // only a list or map that goes on over lines ends so
    if (at > 0 && !/[[{,][ \t]*(?:#.*)?$/.test(lines.lineText(at - 1))) return null;
  }
  return null;
}

/** Null inside quotes or a comment. */
function framesBetween(text: string, start: number, offset: number): FlowFrame[] | null {
  const frames: FlowFrame[] = [];
  for (let at = start; at < offset; at++) {
    const frame = frames[frames.length - 1];
    const letter = text[at];
    const isScalarStart = (): boolean => text.slice(frame ? frame.from : start, at).trim() === '';
    if ((letter === '"' || letter === "'") && isScalarStart()) {
      const close = text.indexOf(letter, at + 1);
      if (close < 0 || close >= offset) return null;
      at = close;
    } else if (letter === '#' && /\s/.test(text[at - 1] ?? ' ')) {
      const end = text.slice(at, offset).search(/[\r\n]/);
      if (end < 0) return null;
      at += end;
    } else if (letter === '[' || letter === '{') {
      // inside a plain word outside of brackets they are letters
      if (frame || isScalarStart())
        frames.push({ open: letter, done: [], key: null, index: 0, from: at + 1 });
    } else if (frame && (letter === ']' || letter === '}')) {
      frames.pop();
      const outer = frames[frames.length - 1];
      if (outer) outer.from = at + 1;
    } else if (frame && letter === ',') {
      frame.done.push(frame.key ?? text.slice(frame.from, at).trim());
      Object.assign(frame, { key: null, index: frame.index + 1, from: at + 1 });
    } else if (
      frame?.open === '{' &&
      frame.key === null &&
      letter === ':' &&
      /^(?:\s|$)/.test(text.slice(at + 1, Math.min(at + 2, offset)))
    ) {
      frame.key = text
        .slice(frame.from, at)
        .trim()
        .replace(/^(["'])(.*)\1$/, '$2');
      frame.from = at + 1;
    }
  }
  return frames;
}
