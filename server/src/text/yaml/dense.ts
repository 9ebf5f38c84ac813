import { CLOSE_LIST, CLOSE_MAP, COLON, COMMA, OPEN_LIST, OPEN_MAP, SPACE } from '../characters';
import { coreValueOf } from '../core-schema';
import { EntryList, type ParseState } from '../parse-state';
import type { Block, MapEntry, Node, ScalarNode } from '../tree';

/**
 * Values of one line in the plainest writing, which nearly all values are: an unquoted word or number, a list
 * `[1204.1, 421.0, 95.4]`, a map `{ part: floor, base: true }` of such. Answers the same nodes as the `yaml`
 * package, or null for anything unusual, which is then the package's to read.
 */
export const denseValue = (state: ParseState, start: number, lineEnd: number, block: Block): Node | null => {
  const cursor = new DenseCursor(state, lineEnd, block);
  const problemsBefore = state.problems.count;
  const node = cursor.valueAt(start);
  if (node && cursor.onlyCommentFollows()) return node;
  state.problems.backTo(problemsBefore);
  return null;
};

const DEEPEST_DENSE = 4;

/** Letters, digits, and `_ / ( ) +` and above ASCII: what a plain scalar can begin with in any context. */
const BEGINS = /^[A-Za-z0-9_/(+\u00a1-\u1fff]/;
/** `-3`, `.5`, `~`: a sign or a dot needs something after it to be looked at more closely. */
const SIGNED = /^[-.][A-Za-z0-9.]/;

class DenseCursor {
  private offset = 0;
  private depth = 0;

  constructor(
    private readonly state: ParseState,
    private readonly end: number,
    private readonly block: Block,
  ) {}

  valueAt(start: number): Node | null {
    this.offset = start;
    return this.value(false);
  }

  onlyCommentFollows(): boolean {
    const from = this.offset;
    this.skipSpaces();
    return this.offset === this.end || (this.offset > from && this.state.text[this.offset] === '#');
  }

  private code(): number {
    return this.offset < this.end ? this.state.text.charCodeAt(this.offset) : -1;
  }

  private skipSpaces(): void {
    while (this.code() === SPACE) this.offset++;
  }

  private value(inFlow: boolean): Node | null {
    const code = this.code();
    if (code !== OPEN_LIST && code !== OPEN_MAP) return this.plain(inFlow);
    if (++this.depth > DEEPEST_DENSE) return null;
    const node = code === OPEN_LIST ? this.list() : this.map();
    this.depth--;
    return node;
  }

  private plain(inFlow: boolean): ScalarNode | null {
    const { text } = this.state;
    const start = this.offset;
    let last = start - 1;
    let offset = start;
    for (; offset < this.end; offset++) {
      const code = text.charCodeAt(offset);
      if (code === SPACE) continue;
      if (code < SPACE || (code > 126 && (code < 0xa1 || code > 0x1fff))) return null;
      if (code === 35 && text.charCodeAt(offset - 1) === SPACE) break;
      if (inFlow) {
        if (code === COMMA || code === CLOSE_LIST || code === CLOSE_MAP) break;
        if (code === OPEN_LIST || code === OPEN_MAP) return null;
      }
      if (code === COLON) {
        const next = offset + 1 < this.end ? text.charCodeAt(offset + 1) : SPACE;
        if (next === SPACE && inFlow) break;
        if (next === SPACE || next === 9 || inFlow) return null;
      }
      last = offset;
    }
    if (last < start) return null;
    this.offset = last + 1;
    const source = text.slice(start, last + 1);
    if (!BEGINS.test(source) && !SIGNED.test(source)) return null;
    const place = { block: this.block, start: start - this.block.start, end: last + 1 - this.block.start };
    return { kind: 'scalar', value: coreValueOf(source), source, plain: true, place };
  }

  private list(): Node | null {
    const start = this.offset++;
    const items: Node[] = [];
    this.skipSpaces();
    while (this.code() !== CLOSE_LIST) {
      const item = this.value(true);
      if (!item) return null;
      items.push(item);
      this.skipSpaces();
      if (this.code() === COMMA) {
        this.offset++;
        this.skipSpaces();
        if (this.code() === CLOSE_LIST) return null;
      } else if (this.code() !== CLOSE_LIST) return null;
    }
    this.offset++;
    return { kind: 'sequence', items, flow: true, place: this.placeFrom(start) };
  }

  private map(): Node | null {
    const start = this.offset++;
    const list = new EntryList(this.state);
    this.skipSpaces();
    while (this.code() !== CLOSE_MAP) {
      const entry = this.entry();
      if (!entry) return null;
      list.add(entry);
      this.skipSpaces();
      if (this.code() === COMMA) {
        this.offset++;
        this.skipSpaces();
        if (this.code() === CLOSE_MAP) return null;
      } else if (this.code() !== CLOSE_MAP) return null;
    }
    this.offset++;
    return { kind: 'map', entries: list.entries, flow: true, place: this.placeFrom(start) };
  }

  private entry(): MapEntry | null {
    const start = this.offset;
    const key = this.plain(true);
    if (!key || this.code() !== COLON) return null;
    this.offset++;
    this.skipSpaces();
    const value = this.value(true);
    return value && { key, value, place: this.placeFrom(start) };
  }

  private placeFrom(start: number) {
    return { block: this.block, start: start - this.block.start, end: this.offset - this.block.start };
  }
}
