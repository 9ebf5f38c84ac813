import { type MapNode, type Node, offsetsOf, type SequenceNode } from '../../text/tree';

/**
 * A row of a table of the file: a reading, a point of the chassis, a distance. What stands in it is never changed, only the blanks
 * between: each gap says how wide it should be once the widest of every column is known.
 */
export interface Row {
  readonly start: number;
  readonly end: number;
  /** Characters that this row needs in a column. */
  readonly needs: readonly { readonly column: Column; readonly width: number }[];
  readonly gaps: readonly Gap[];
}

/** `key`: what stands before the colon; a triple's three numbers; a distance's two ends and its figure. */
export type Column = 'key' | 'first' | 'second' | 'third' | 'from' | 'to' | 'distance';

interface Gap {
  readonly start: number;
  readonly end: number;
  /** The blanks that belong here. `widest`: the characters of the widest in a column. */
  readonly blanks: (widest: (column: Column) => number) => string;
}

const number = /^[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][-+]?\d+)?$/;
const tripleColumns = ['first', 'second', 'third'] as const;

/** Collects the gaps of one row. `false` from a method: the row is written in a way that is left alone. */
export class RowWriter {
  readonly needs: { column: Column; width: number }[] = [];
  readonly gaps: Gap[] = [];

  constructor(private readonly text: string) {}

  row(start: number, end: number): Row {
    return { start, end, needs: this.needs, gaps: this.gaps };
  }

  /** Only blanks, and `sign` among them, stand between two offsets: the blanks before the sign go, those after it become `after`. */
  sign(start: number, end: number, sign: string, after: Gap['blanks'] | null): boolean {
    const between = this.text.slice(start, end);
    const at = between.indexOf(sign);
    if (at < 0 || between.replace(sign, '').trim() !== '') return false;
    if (at > 0) this.gaps.push({ start, end: start + at, blanks: none });
    const afterSign = start + at + sign.length;
    if (after) this.gaps.push({ start: afterSign, end, blanks: after });
    return true;
  }

  /** A key with its value on the same line, in a table whose values stand below each other. */
  key(key: Node, value: Node): boolean {
    const { start, end } = offsetsOf(key.place);
    const width = end - start;
    this.needs.push({ column: 'key', width });
    return this.sign(end, offsetsOf(value.place).start, ':', (widest) =>
      ' '.repeat(widest('key') - width + 1),
    );
  }

  /** `[1204.1, 421.0, 95.4]`, or a list of such. */
  triples(node: Node): boolean {
    if (node.kind !== 'sequence' || !node.flow || node.items.length === 0) return false;
    if (node.items[0].kind !== 'sequence') return this.triple(node);
    return this.list(node, (item) => this.triple(item), { keepsLineBreaks: true });
  }

  triple(node: Node): boolean {
    if (node.kind !== 'sequence' || !node.flow || node.items.length !== 3) return false;
    return this.list(node, (item, i) => this.rightAligned(item, tripleColumns[i]));
  }

  /** One number of a column; the blanks before it are the gap that ends at its start. */
  private rightAligned(node: Node, column: Column): boolean {
    const { start, end } = offsetsOf(node.place);
    if (node.kind !== 'scalar' || !node.plain || !number.test(this.text.slice(start, end))) return false;
    this.needs.push({ column, width: end - start });
    const gap = this.gaps.pop();
    if (gap === undefined || gap.end !== start) return false;
    this.gaps.push({
      ...gap,
      blanks: (widest) => gap.blanks(widest) + ' '.repeat(widest(column) - (end - start)),
    });
    return true;
  }

  /** `[from, to, distance]`: ends to the left of their columns, figures to the right. */
  span(node: Node): boolean {
    if (node.kind !== 'sequence' || !node.flow || node.items.length !== 3) return false;
    const isEnd = (item: Node): boolean => {
      const { start, end } = offsetsOf(item.place);
      return item.kind === 'scalar' && !/[\r\n]/.test(this.text.slice(start, end));
    };
    return this.list(node, (item, i) => (i === 2 ? this.distance(item) : isEnd(item)), {
      leftColumns: ['from', 'to'],
    });
  }

  private distance(node: Node): boolean {
    if (node.kind === 'scalar') return node.value === 'unreachable' || this.rightAligned(node, 'distance');
    return (
      node.kind === 'sequence' && node.flow && this.list(node, (item) => this.rightAligned(item, 'distance'))
    );
  }

  /** A list in brackets. */
  private list(
    node: SequenceNode,
    item: (item: Node, index: number) => boolean,
    how: ListLayout = {},
  ): boolean {
    const { start, end } = offsetsOf(node.place);
    let done = start;
    // what the item before lacks to the width of its column
    let lack: Gap['blanks'] = none;
    for (const [index, each] of node.items.entries()) {
      const place = offsetsOf(each.place);
      const blanks = lack;
      const sign = index === 0 ? '[' : ',';
      if (!this.listGap(done, place.start, sign, index === 0 ? none : (widest) => ` ${blanks(widest)}`, how))
        return false;
      const column = how.leftColumns?.[index];
      const width = place.end - place.start;
      if (column !== undefined) this.needs.push({ column, width });
      lack = column === undefined ? none : (widest) => ' '.repeat(widest(column) - width);
      if (!item(each, index)) return false;
      done = place.end;
    }
    return this.listGap(done, end, ']', null, how);
  }

  private listGap(
    start: number,
    end: number,
    sign: string,
    after: Gap['blanks'] | null,
    how: ListLayout,
  ): boolean {
    const between = this.text.slice(start, end);
    if (how.keepsLineBreaks && /[\r\n]/.test(between)) return between.trim() === sign;
    return this.sign(start, end, sign, after);
  }

  /** `{ both: [1200, 420, 95], part: floor }` on one line: one blank inside the braces and behind colons and commas. */
  map(node: MapNode, isTriple: (key: string) => boolean): boolean {
    const { start, end } = offsetsOf(node.place);
    if (!node.flow || node.entries.length === 0 || /[\r\n]/.test(this.text.slice(start, end))) return false;
    let done = start;
    for (const [index, { key, value }] of node.entries.entries()) {
      if (value === null) return false;
      const at = { key: offsetsOf(key.place), value: offsetsOf(value.place) };
      if (!this.sign(done, at.key.start, index === 0 ? '{' : ',', oneBlank)) return false;
      if (!this.sign(at.key.end, at.value.start, ':', oneBlank)) return false;
      if (isTriple(String(key.value)) && !this.triple(value)) return false;
      done = at.value.end;
    }
    // a brace that is missing, or another bracket in its place, is nothing to set blanks before
    if (this.text.slice(done, end).trim() !== '}') return false;
    this.gaps.push({ start: done, end: end - 1, blanks: oneBlank });
    return true;
  }
}

const none = (): string => '';
const oneBlank = (): string => ' ';

interface ListLayout {
  /** Items may stand below each other: line breaks between them stay. */
  readonly keepsLineBreaks?: true;
  /** Columns of the first items, which are padded behind their comma. */
  readonly leftColumns?: readonly Column[];
}
