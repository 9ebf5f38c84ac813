import { closingOf } from '../brackets';
import { coreValueOf } from '../core-schema';
import { beginsPlain, type KeyOnLine, keyOnLine, tightKeyOnLine, visibleFrom, writtenEnd } from '../key-line';
import { DEEPEST, EntryList, type ParseState } from '../parse-state';
import { type Block, type MapEntry, type Node, placeBetween, type ScalarNode } from '../tree';
import { denseValue } from './dense';
import { Extents } from './extents';
import { leafNode } from './leaf';
import type { Leaf } from './leaf-stretch';
import { anchored, anchorsAlone } from './properties';
import { Alignment, brokenEntryMessage, needsWholeMap } from './slips';
import type { StructureLines } from './structure';
import { type TripleRow, tripleRow } from './triple-row';

/** Above a stretch of lines: whose value it is. */
interface Owner {
  readonly under: 'key above' | 'dash above' | 'nothing';
  readonly indent: number;
  readonly block?: Block;
}

/**
 * Reads block structure line by line and cuts it into leaves, each of which is parsed alone: so a slip in one leaf
 * leaves the others as they are. What the lines do not tell (explicit keys, a key that is an alias) goes to the
 * `yaml` package with the whole map around it.
 */
export class BlockScanner {
  private readonly extents: Extents;
  private readonly text: string;

  constructor(
    private readonly state: ParseState,
    private readonly lines: StructureLines,
  ) {
    this.text = state.text;
    this.extents = new Extents(state.text, lines);
  }

  root(): Node | null {
    return this.node(0, this.lines.count, { under: 'nothing', indent: 0 }, 0);
  }

  /** The value that the lines [from, to) hold; null where they hold none. */
  private node(from: number, to: number, owner: Owner, depth: number): Node | null {
    const first = this.extents.nextContent(from, to);
    if (first >= to) return null;
    if (depth > DEEPEST) {
      this.state.reportTooDeep(this.lines.content[first]);
      return null;
    }
    if (this.extents.isDashLine(first)) return this.sequence(first, to, depth);
    if (this.extents.isKeyLine(first)) return this.map(first, to, depth);
    return this.unkeyed(from, first, to, owner, depth);
  }

  /** Lines that begin with neither key nor dash: one value, unless the first line is a slip above keys or dashes. */
  private unkeyed(from: number, first: number, to: number, owner: Owner, depth: number): Node | null {
    const { content, start, end } = this.lines;
    const beside = this.extents.kindBeside(first, to);
    const closing = closingOf(this.text, content[first], start[to]);
    const cannotGoOn = beginsPlain(this.text, content[first], end[first]) || closing.kind === 'open';
    if (beside === 'key' && cannotGoOn) return this.map(first, to, depth);
    if (beside === null && /^[^\s:]+:[[{"']/.test(this.text.slice(content[first], end[first]))) {
      if (tightKeyOnLine(this.text, content[first], end[first])) return this.map(first, to, depth);
    }
    const problemsBefore = this.state.problems.count;
    const block = owner.block ?? { start: content[first] };
    const node = this.leaf({ ...owner, from: start[from], to: start[to], block });
    const spansLines = closing.kind === 'closed' && closing.end > end[first];
    if (this.state.problems.count === problemsBefore || !beside || spansLines) return node;
    this.state.problems.backTo(problemsBefore);
    return beside === 'key' ? this.map(first, to, depth) : this.sequence(first, to, depth);
  }

  private map(first: number, to: number, depth: number): Node | null {
    const { content, indent, end, start } = this.lines;
    const own = indent[first];
    const from = content[first];
    const problemsBefore = this.state.problems.count;
    const list = new EntryList(this.state);
    const alignment = new Alignment(own);
    let triedWhole = false;
    let line = first;
    while (line < to) {
      this.reportIndent(line, alignment);
      const rows = this.lines.rows.get(line);
      if (rows) {
        for (const row of rows) list.addNamed(row.name, row);
        line++;
        continue;
      }
      const row = this.row(line, to);
      if (row) {
        list.addNamed(row.name, row);
        line = this.extents.nextContent(line + 1, to);
        continue;
      }
      const key = keyOnLine(this.text, content[line], end[line]);
      if (key) line = this.entry(line, to, key, list, depth);
      else if (this.extents.isDashLine(line)) line = this.strayDashes(line, to);
      else {
        if (!triedWhole && needsWholeMap(this.text.slice(content[line], end[line]))) {
          triedWhole = true;
          const whole = this.wholeMap(from, start[to], own, problemsBefore);
          if (whole) return whole;
        }
        line = this.brokenEntry(line, to, list, depth);
      }
      line = this.extents.nextContent(line, to);
    }
    const { entries } = list;
    if (entries.length === 0) return null;
    const place = placeBetween(entries[0].place, entries[entries.length - 1].place);
    return { kind: 'map', entries, flow: false, place };
  }

  /** A map with something in it that only the `yaml` package reads; null where it cannot either. */
  private wholeMap(from: number, to: number, indent: number, problemsBefore: number): Node | null {
    const { problems } = this.state;
    const kept = problems.list.slice(problemsBefore);
    problems.backTo(problemsBefore);
    const node = this.leaf({ from, to, under: 'nothing', indent, block: { start: from } });
    const isRead = problems.list.slice(problemsBefore).every(({ rule }) => rule !== 'text/syntax');
    if (isRead && node?.kind === 'map') return node;
    problems.backTo(problemsBefore);
    for (const { rule, message, place, related } of kept) problems.add(rule, message, place, related);
    return null;
  }

  /** Reads the entry that begins on `line` and answers the line after it. */
  private entry(line: number, to: number, key: KeyOnLine, list: EntryList, depth: number): number {
    const own = this.lines.indent[line];
    const block: Block = { start: key.start };
    const keyNode = this.keyNode(key, block);
    const next = this.extents.extentEnd(line, to, own);
    const names = this.anchorsBefore(line, key.valueStart, this.hasChildren(line, next, to));
    if (key.valueStart >= 0 && !names) {
      const leaf: Leaf = { from: key.valueStart, to, under: 'key', indent: own, block };
      const [value, after] = this.inlineValue(line, next, leaf);
      list.add(entryOf(keyNode, value, key.colon));
      return after;
    }
    let last = next;
    const firstChild = this.extents.nextContent(line + 1, next);
    if (firstChild === next && this.isDashBeside(next, to, own)) last = this.extents.dashRunEnd(next, to);
    const owner: Owner = { under: 'key above', indent: own, block };
    const value = anchored(this.state, names, () => this.node(line + 1, last, owner, depth + 1));
    list.add(entryOf(keyNode, value, key.colon));
    return last;
  }

  /** A row of three numbers that the line ends: nothing indented deeper goes on with it. */
  private row(line: number, to: number): TripleRow | null {
    const { content, end, indent } = this.lines;
    const next = this.extents.nextContent(line + 1, to);
    if (next < to && (indent[next] > indent[line] || ']}'.includes(this.text[content[next]]))) return null;
    return tripleRow(this.text, content[line], end[line]);
  }

  private keyNode(key: KeyOnLine, block: Block): ScalarNode {
    const source = this.text.slice(key.start, key.end);
    const place = { block, start: 0, end: key.end - key.start };
    if (!key.quoted) return { kind: 'scalar', value: coreValueOf(source), source, plain: true, place };
    if (source.startsWith("'") || !source.includes('\\')) {
      const inner = source.slice(1, -1);
      const value = source.startsWith("'") ? inner.replaceAll("''", "'") : inner;
      return { kind: 'scalar', value, source, plain: false, place };
    }
    const node = this.leaf({ from: key.start, to: key.end, under: 'nothing', indent: 0, block });
    return node?.kind === 'scalar' ? node : { kind: 'scalar', value: source, source, plain: false, place };
  }

  /**
   * The value on the line of its key or dash, with its further lines, and the line after it.
   * @param next the line after what is indented deeper
   * @param within from the value on, to the line that it cannot reach
   */
  private inlineValue(line: number, next: number, within: Leaf): [Node | null, number] {
    const { from, to, block } = within;
    const goesOn = this.extents.nextContent(line + 1, next) < next;
    let last = next;
    if (!goesOn) {
      const dense = denseValue(this.state, from, this.lines.end[line], block);
      if (dense) return [dense, next];
      if ('[{"\''.includes(this.text[from])) last = this.extents.absorbedEnd(next, to, from);
    } else last = this.extents.valueEnd(line, next, from);
    return [this.leaf({ ...within, to: this.lines.start[last] }), last];
  }

  private leaf(leaf: Leaf): Node | null {
    return leafNode(this.state, leaf);
  }

  private sequence(first: number, to: number, depth: number): Node | null {
    const { indent, content, end } = this.lines;
    const items: Node[] = [];
    const own = indent[first];
    const alignment = new Alignment(own);
    let inSlip = false;
    let line = first;
    while (line < to) {
      if (this.extents.isDashLine(line)) {
        inSlip = false;
        this.reportIndent(line, alignment);
        line = this.item(line, to, items, depth);
      } else {
        if (!inSlip) {
          const stop = writtenEnd(this.text, content[line], end[line]);
          // a tab counts as two columns: what it indents may look no deeper than the list
          if (this.lines.tabbed.has(line)) this.reportIndent(line, alignment);
          else this.state.reportSyntax('an entry of a list must begin with “- ”', content[line], stop);
        }
        inSlip = true;
        line = this.extents.extentEnd(line, to, indent[line]);
      }
      line = this.extents.nextContent(line, to);
    }
    if (items.length === 0) return null;
    const place = placeBetween(items[0].place, items[items.length - 1].place);
    return { kind: 'sequence', items, flow: false, indent: own, place };
  }

  /** Reads the list entry that begins on `line` and answers the line after it. */
  private item(line: number, to: number, items: Node[], depth: number): number {
    const { content, indent, end } = this.lines;
    const own = indent[line];
    const dash = content[line];
    const next = this.extents.extentEnd(line, to, own);
    const rest = visibleFrom(this.text, dash + 1, end[line]);
    const names = this.anchorsBefore(line, rest, this.extents.nextContent(line + 1, next) < next);
    if (rest < 0 || names) {
      const owner: Owner = { under: 'dash above', indent: own };
      const value = anchored(this.state, names, () => this.node(line + 1, next, owner, depth + 1));
      items.push(value ?? emptyAt(dash + 1));
      return next;
    }
    content[line] = rest;
    indent[line] = own + rest - dash;
    if (this.extents.isDashLine(line) || this.extents.isKeyLine(line)) {
      const owner: Owner = { under: 'dash above', indent: own };
      items.push(this.node(line, next, owner, depth + 1) ?? emptyAt(rest));
      return next;
    }
    const leaf: Leaf = { from: rest, to, under: 'dash', indent: own, block: { start: rest } };
    const [value, after] = this.inlineValue(line, next, leaf);
    items.push(value ?? emptyAt(rest));
    return after;
  }

  private strayDashes(line: number, to: number): number {
    const { content, end } = this.lines;
    const stop = writtenEnd(this.text, content[line], end[line]);
    this.state.reportSyntax('an entry of a list stands where a key is expected', content[line], stop);
    return this.extents.dashRunEnd(line, to);
  }

  /** A line without a colon where a key is expected. It takes no other line with it, but keeps lines below it that are its own. */
  private brokenEntry(line: number, to: number, list: EntryList, depth: number): number {
    const { content, end, indent } = this.lines;
    const from = content[line];
    const tight = tightKeyOnLine(this.text, from, end[line]);
    if (tight && tight.valueStart >= 0) {
      this.state.reportSyntax('put a space after the colon', tight.colon, tight.colon + 1);
      return this.entry(line, to, tight, list, depth);
    }
    const stop = writtenEnd(this.text, from, end[line]);
    const next = this.extents.extentEnd(line, to, indent[line]);
    this.state.reportSyntax(brokenEntryMessage(this.text, from, stop, end[line]), from, stop);
    const child = this.extents.nextContent(line + 1, next);
    const plain = beginsPlain(this.text, from, end[line]);
    if (plain && child < next && (this.extents.isKeyLine(child) || this.extents.isDashLine(child))) {
      const block: Block = { start: from };
      const key = { start: from, end: stop, colon: stop - 1, quoted: false, valueStart: -1 };
      const owner: Owner = { under: 'key above', indent: indent[line], block };
      const value = this.node(line + 1, next, owner, depth + 1);
      list.add(entryOf(this.keyNode(key, block), value, key.colon));
    }
    return next;
  }

  private reportIndent(line: number, alignment: Alignment): void {
    const { content, indent, tabbed, start } = this.lines;
    const wrong = alignment.isNewlyWrong(indent[line]);
    if (tabbed.has(line)) {
      const tab = this.text.indexOf('\t', start[line]);
      if (tab < content[line]) {
        this.state.reportSyntax('a tab at the start of the line: indent with spaces', tab, tab + 1);
      }
    } else if (wrong) {
      const message = `this line starts in column ${indent[line] + 1}, the ones beside it in column ${alignment.indent + 1}: align them`;
      this.state.reportSyntax(message, content[line], content[line] + 1);
    }
  }

  private isDashBeside(line: number, to: number, indent: number): boolean {
    return line < to && this.lines.indent[line] === indent && this.extents.isDashLine(line);
  }

  private hasChildren(line: number, next: number, to: number): boolean {
    if (this.extents.nextContent(line + 1, next) < next) return true;
    return this.isDashBeside(next, to, this.lines.indent[line]);
  }

  /** Anchors at `valueStart` that belong to the lines below. */
  private anchorsBefore(line: number, valueStart: number, hasChildren: boolean): string[] | null {
    if (valueStart < 0 || !hasChildren) return null;
    return anchorsAlone(this.state, valueStart, writtenEnd(this.text, valueStart, this.lines.end[line]));
  }
}

const emptyAt = (offset: number): ScalarNode => {
  const place = { block: { start: offset }, start: 0, end: 0 };
  return { kind: 'scalar', value: null, source: '', plain: true, place };
};

const entryOf = (key: ScalarNode, value: Node | null, colon: number): MapEntry => ({
  key,
  value,
  place: value
    ? placeBetween(key.place, value.place)
    : { ...key.place, end: colon + 1 - key.place.block.start },
});
