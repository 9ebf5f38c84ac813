import { closingOf } from '../brackets';
import { isDash, keyOnLine } from '../key-line';
import type { StructureLines } from './structure';

/** How far things reach over the lines: what belongs to a key or a dash, and what to its value. */
export class Extents {
  constructor(
    readonly text: string,
    readonly lines: StructureLines,
  ) {}

  /** The first line from `from` on with content, at most `to`. */
  nextContent(from: number, to: number): number {
    let line = from;
    while (line < to && this.lines.content[line] < 0) line++;
    return line;
  }

  isDashLine(line: number): boolean {
    return isDash(this.text, this.lines.content[line], this.lines.end[line]);
  }

  isKeyLine(line: number): boolean {
    return keyOnLine(this.text, this.lines.content[line], this.lines.end[line]) !== null;
  }

  /**
   * The first line after `line` that no longer belongs to what starts there at `indent`. A closing bracket at the
   * same indent still does: strictly against YAML 1.2, but usual, and the `yaml` package takes it.
   */
  extentEnd(line: number, to: number, indent: number): number {
    let next = line + 1;
    for (; next < to; next++) {
      const offset = this.lines.content[next];
      if (offset < 0 || this.lines.indent[next] > indent) continue;
      const first = this.text[offset];
      if (this.lines.indent[next] < indent || (first !== ']' && first !== '}')) break;
    }
    return next;
  }

  /** End of the dash lines that stand at the same indent as their key. */
  dashRunEnd(first: number, to: number): number {
    const indent = this.lines.indent[first];
    let next = this.extentEnd(first, to, indent);
    while (next < to && this.lines.indent[next] === indent && this.isDashLine(next)) {
      next = this.extentEnd(next, to, indent);
    }
    return next;
  }

  /** Whether a later line at the indent of `first` is a key or a dash: then `first` is a slip among them. */
  kindBeside(first: number, to: number): 'key' | 'dash' | null {
    const indent = this.lines.indent[first];
    for (let line = first + 1; line < to; line++) {
      if (this.lines.content[line] < 0 || this.lines.indent[line] !== indent) continue;
      if (this.isDashLine(line)) return 'dash';
      if (this.isKeyLine(line)) return 'key';
    }
    return null;
  }

  /**
   * Where the value that begins at `valueStart` on `line` ends, of the lines up to `to` that are indented deeper:
   * a closed bracket or quote, a comment after a word, and a further key end it.
   */
  valueEnd(line: number, to: number, valueStart: number): number {
    const { content, end, start, comment } = this.lines;
    const first = this.text[valueStart];
    if ('|>&*!'.includes(first)) return to;
    const closing = closingOf(this.text, valueStart, start[to]);
    if (closing.kind === 'closed') {
      let last = line;
      while (end[last] < closing.end) last++;
      return last + 1;
    }
    if (closing.kind !== 'none') return to;
    let ended = /[ \t]#/.test(this.text.slice(valueStart, end[line]));
    for (let next = line + 1; next < to; next++) {
      if (comment[next]) ended = true;
      if (content[next] < 0) continue;
      if (ended || this.isKeyLine(next)) return next;
      if (/[ \t]#/.test(this.text.slice(content[next], end[next]))) ended = true;
    }
    return to;
  }

  /**
   * An open bracket or quote whose closing stands on a line that is not indented enough: the lines up to there are its,
   * unless a key or a dash comes first.
   */
  absorbedEnd(from: number, to: number, valueStart: number): number {
    const { content, start } = this.lines;
    if (closingOf(this.text, valueStart, start[from]).kind !== 'open') return from;
    const farthest = Math.min(to, from + MOST_ABSORBED);
    let next = from;
    while (next < farthest && (content[next] < 0 || !(this.isDashLine(next) || this.isKeyLine(next)))) next++;
    const closing = closingOf(this.text, valueStart, start[next]);
    return closing.kind === 'closed' ? this.lineAfter(closing.end, from, next) : from;
  }

  private lineAfter(offset: number, from: number, to: number): number {
    let line = from;
    while (line < to && this.lines.start[line] < offset) line++;
    return line;
  }
}

const MOST_ABSORBED = 20;
