import { type Document, isAlias, isCollection, isMap, isPair, isScalar, isSeq, type ParsedNode } from 'yaml';
import { DEEPEST, EntryList, type ParseState } from '../parse-state';
import type { Block, MapEntry, Node, Place, ScalarNode } from '../tree';
import { placeBetween } from '../tree';
import { tagMessage } from './properties';

type YamlNode = ParsedNode | Document['contents'] | undefined;

/** Turns nodes of the `yaml` package into ours. `shift` leads from an offset in what was parsed to one relative to the block. */
export class YamlConversion {
  constructor(
    private readonly state: ParseState,
    private readonly block: Block,
    private readonly shift: number,
  ) {}

  /** Null for nothing (and for what an unresolved alias stands for). */
  nodeOf(source: unknown, depth = 0): Node | null {
    const node = source as YamlNode;
    if (!node?.range) return null;
    if (depth > DEEPEST) {
      this.state.reportTooDeep(this.absolute(node.range[0]), this.block);
      return null;
    }
    if (isAlias(node)) {
      return this.state.anchors.resolved(node.source, this.place(node.range), this.state.problems);
    }
    if (node.tag) this.reportTag(node.range[0]);
    if (node.anchor) this.state.anchors.open(node.anchor);
    const result = isScalar(node) ? this.scalarOf(node) : this.collectionOf(node, node.range, depth);
    if (node.anchor) this.state.anchors.close(node.anchor, result);
    return result;
  }

  private scalarOf(node: {
    value: unknown;
    source?: string;
    type?: string;
    range?: ParsedNode['range'] | null;
  }): ScalarNode | null {
    if (!node.range) return null;
    const [start, end] = node.range;
    const plain = node.type === 'PLAIN' || node.type === undefined;
    if (start === end && plain) return null;
    const place = this.place([start, end]);
    const { value } = node;
    const known =
      value === null || typeof value === 'number' || typeof value === 'boolean' || typeof value === 'string';
    return {
      kind: 'scalar',
      value: known ? value : (node.source ?? null),
      source: this.written(place),
      plain,
      place,
    };
  }

  private collectionOf(
    node: NonNullable<YamlNode>,
    range: readonly [number, number, number],
    depth: number,
  ): Node | null {
    const flow = isCollection(node) && node.flow === true;
    if (isSeq(node)) {
      const items = node.items.map(
        (item) => this.nodeOf(isPair(item) ? item.key : item, depth + 1) ?? this.empty(range, item),
      );
      const place = flow || items.length === 0 ? this.place(range) : spanOf(items);
      if (flow) return { kind: 'sequence', items, flow, place };
      return { kind: 'sequence', items, flow, indent: this.columnOf(range[0]), place };
    }
    if (!isMap(node)) return null;
    const list = new EntryList(this.state);
    for (const pair of node.items) {
      const entry = this.entryOf(pair, range, flow, depth);
      if (entry) list.add(entry);
    }
    const { entries } = list;
    const place = flow || entries.length === 0 ? this.place(range) : spanOf(entries);
    return { kind: 'map', entries, flow, place };
  }

  private entryOf(
    pair: { key: unknown; value: unknown },
    mapRange: readonly [number, number, number],
    flow: boolean,
    depth: number,
  ): MapEntry | null {
    const key = this.nodeOf(pair.key, depth + 1) ?? this.empty(mapRange, pair.key);
    if (key.kind !== 'scalar') {
      const { start, end } = key.place;
      this.state.reportSyntax(
        'a key must be a word',
        start + this.block.start,
        end + this.block.start,
        this.block,
      );
      return null;
    }
    if (key.place.start === key.place.end) {
      const at = this.block.start + key.place.start;
      this.state.reportSyntax('a key is missing before the colon', at, at + 1, this.block);
      return null;
    }
    const value = this.nodeOf(pair.value, depth + 1);
    if (value) return { key, value, place: placeBetween(key.place, value.place) };
    if (flow && key.plain) this.reportTightColon(key);
    return { key, value, place: { ...key.place, end: this.colonAfter(key.place.end) } };
  }

  /** `{ part:floor }` is one long key without a value, never what was meant. */
  private reportTightColon(key: ScalarNode): void {
    const colon = key.source.indexOf(':');
    if (colon <= 0 || colon === key.source.length - 1) return;
    const at = this.block.start + key.place.start + colon;
    this.state.reportSyntax('put a space after the colon', at, at + 1, this.block);
  }

  private colonAfter(relativeEnd: number): number {
    const blanks = /[ \t]*:/y;
    blanks.lastIndex = this.block.start + relativeEnd;
    return blanks.test(this.state.text) ? blanks.lastIndex - this.block.start : relativeEnd;
  }

  private reportTag(nodeStart: number): void {
    const end = this.absolute(nodeStart);
    const before = Math.max(this.state.from, end - 200);
    const words = [...this.state.text.slice(before, end).matchAll(/\S+/g)];
    // an anchor may stand between the tag and its value
    const word = words.at(words.at(-1)?.[0].startsWith('&') ? -2 : -1);
    const from = word?.[0].indexOf('!') ?? -1;
    const start = word && from >= 0 ? before + word.index + from : end;
    const written = word && from >= 0 ? word[0].slice(from) : '!';
    this.state.reportSyntax(tagMessage(written), start, start + written.length, this.block);
  }

  private absolute(offset: number): number {
    return offset + this.shift + this.block.start;
  }

  private columnOf(offset: number): number {
    const lineStart = this.state.text.lastIndexOf('\n', this.absolute(offset) - 1) + 1;
    return this.absolute(offset) - lineStart;
  }

  private written(place: Place): string {
    return this.state.text.slice(place.block.start + place.start, place.block.start + place.end);
  }

  /** Block scalars run to the end of their last line; what is blank there belongs to nobody. */
  private place([start, end]: readonly [number, number, ...number[]]): Place {
    const { text, from: first, to: last } = this.state;
    const from = Math.min(Math.max(this.absolute(start), first), last);
    let to = Math.min(Math.max(this.absolute(end), from), last);
    while (to > from && (text[to - 1] === '\n' || text[to - 1] === '\r' || text[to - 1] === ' ')) to--;
    return { block: this.block, start: from - this.block.start, end: to - this.block.start };
  }

  /** The node that stands for an entry of a list, or a key, that was left empty. */
  private empty(within: readonly [number, number, number], source: unknown): ScalarNode {
    const at = (source as { range?: [number, number, number] } | null)?.range?.[0] ?? within[0];
    return { kind: 'scalar', value: null, source: '', plain: true, place: this.place([at, at]) };
  }
}

const spanOf = (children: readonly { place: Place }[]): Place =>
  placeBetween(children[0].place, children[children.length - 1].place);
