import type { LineTable } from '../../text/lines';
import { type LineHead, lineHead } from './line-head';

/** The outermost list item that a place is in: the offset of its line, and its first key. */
export interface EnclosingItem {
  readonly start: number;
  readonly kind: string;
}

/** The keys and list items round a line, by the indents of the lines above it. */
export class Block {
  readonly path: string[] = [];
  private limit: number;
  /** An item's dash may stand under its key. */
  private mayEqual = false;
  private outermost: number | null = null;

  constructor(
    private readonly lines: LineTable,
    private readonly line: number,
    private readonly head: LineHead,
  ) {
    this.limit = head.column;
    this.stepOver(line, { ...head, key: null });
    for (let at = line - 1; at >= 0 && (this.limit > 0 || this.mayEqual); at--) {
      const text = lines.lineText(at);
      const indent = text.search(/\S/);
      if (indent >= 0 && text[indent] !== '#' && indent <= this.limit) this.stepOver(at, lineHead(text));
    }
  }

  /** What a line above, or the dashes of the line itself, add to the path. */
  private stepOver(line: number, { key, column, dashes }: LineHead): void {
    const isUnder = column < this.limit || (this.mayEqual && column === this.limit && dashes.length === 0);
    if (key !== null && isUnder) {
      this.path.unshift(key);
      this.limit = column;
      this.mayEqual = false;
    }
    for (const dash of [...dashes].reverse()) {
      if (dash >= this.limit) continue;
      this.path.unshift('-');
      this.limit = dash;
      this.mayEqual = true;
      this.outermost = line;
    }
  }

  item(): EnclosingItem | null {
    if (this.outermost === null) return null;
    const { key } = lineHead(this.lines.lineText(this.outermost));
    return { start: this.lines.startOf(this.outermost), kind: key ?? '' };
  }

  /** Keys at the same indent in the same map, without the line's own. */
  siblings(): { siblings: string[]; above: string | null } {
    const before: string[] = [];
    const after: string[] = [];
    const { column, dashes } = this.head;
    if (dashes.length === 0) {
      this.walk(this.line - 1, -1, (found) => {
        if (found.key !== null && found.column === column) before.push(found.key);
        // a dash on this line begins the map
        return found.column === column && found.dashes.length > 0;
      });
    }
    this.walk(this.line + 1, 1, (found) => {
      if (found.dashes.length > 0 && found.dashes[0] < column) return true;
      if (found.key !== null && found.column === column) after.push(found.key);
      return false;
    });
    return { siblings: [...before.reverse(), ...after], above: before.at(-1) ?? null };
  }

  private walk(from: number, step: 1 | -1, visit: (head: LineHead) => boolean): void {
    const { column } = this.head;
    for (let at = from; at >= 0 && at < this.lines.lineCount; at += step) {
      const text = this.lines.lineText(at);
      const indent = text.search(/\S/);
      if (indent < 0 || text[indent] === '#' || indent > column) continue;
      const head = lineHead(text);
      if (indent < column && head.column !== column) return;
      if (visit(head)) return;
    }
  }
}
