import { CLOSE_LIST, COLON, COMMA, DASH, HASH, OPEN_LIST, POINT, SPACE } from '../characters';
import { coreValueOf } from '../core-schema';
import type { Block, MapEntry, Node, Place, ScalarNode } from '../tree';
import { codeWith, wordIn } from '../words';

/**
 * A row `name: [1204.1, 421.0, 95.4]` in the plainest writing, as nearly all lines of a job are. It is kept as its three numbers and
 * where they stand, and the nodes that other rows are made of at once are made here when somebody asks for them. It is its own
 * block, so that it costs one object and one list.
 */
export class TripleRow implements MapEntry, Block {
  private ownKey: ScalarNode | null = null;
  private ownValue: Node | null = null;
  private keyPlaced: Place | null = null;
  private valuePlaced: Place | null = null;

  /**
   * @param start offset of the key in the document: moves with the text above
   * @param written the brackets and what stands in them
   * @param listStart and `length`, UTF-16 units from the key on: where the brackets begin, and where they end, which ends the row
   */
  constructor(
    public start: number,
    readonly name: string,
    readonly triple: readonly [number, number, number],
    private readonly written: string,
    private readonly listStart: number,
    readonly length: number,
  ) {}

  get keyPlace(): Place {
    this.keyPlaced ??= { block: this, start: 0, end: this.name.length };
    return this.keyPlaced;
  }

  get valuePlace(): Place {
    this.valuePlaced ??= { block: this, start: this.listStart, end: this.length };
    return this.valuePlaced;
  }

  get place(): Place {
    return { block: this, start: 0, end: this.length, endBlock: this };
  }

  get key(): ScalarNode {
    const { name } = this;
    this.ownKey ??= {
      kind: 'scalar',
      value: coreValueOf(name),
      source: name,
      plain: true,
      place: this.keyPlace,
    };
    return this.ownKey;
  }

  get value(): Node {
    this.ownValue ??= { kind: 'sequence', items: this.items(), flow: true, place: this.valuePlace };
    return this.ownValue;
  }

  private items(): ScalarNode[] {
    return [...this.written.matchAll(/[-.\d]+/g)].map((match, i) => {
      const start = this.listStart + match.index;
      const place = { block: this, start, end: start + match[0].length };
      return { kind: 'scalar', value: this.triple[i], source: match[0], plain: true, place };
    });
  }
}

const isDigit = (code: number): boolean => code >= 48 && code <= 57;
const isLetter = (code: number): boolean => (code >= 97 && code <= 122) || (code >= 65 && code <= 90);

/**
 * The row on a line whose key begins at `from`; null for anything that is not in the plainest writing, which is the
 * general way's to read.
 */
export function tripleRow(source: string, from: number, lineEnd: number): TripleRow | null {
  const row = rowAt(source, from);
  return row !== null && onlyCommentFollows(source, from + row.length, lineEnd) ? row : null;
}

/** The row that begins at an offset, whatever follows it; null where none in the plainest writing does. */
export function rowAt(source: string, from: number): TripleRow | null {
  let at = from;
  let code = source.charCodeAt(at);
  if (!isLetter(code)) return null;
  let word = 0;
  do {
    word = codeWith(word, code);
    code = source.charCodeAt(++at);
  } while (isLetter(code) || isDigit(code) || code === DASH || code === POINT);
  const keyEnd = at;
  if (code !== COLON || source.charCodeAt(++at) !== SPACE) return null;
  while (source.charCodeAt(at) === SPACE) at++;
  if (source.charCodeAt(at) !== OPEN_LIST) return null;
  const list = at++;
  const triple: [number, number, number] = [0, 0, 0];
  for (let i = 0; i < 3; i++) {
    if (i > 0 && source.charCodeAt(at++) !== COMMA) return null;
    while (source.charCodeAt(at) === SPACE) at++;
    const end = numberEnd(source, at);
    if (end < 0) return null;
    triple[i] = parsed;
    at = end;
  }
  if (source.charCodeAt(at++) !== CLOSE_LIST) return null;
  const name = wordIn(source, from, keyEnd, word);
  return new TripleRow(from, name, triple, source.slice(list, at), list - from, at - from);
}

function onlyCommentFollows(source: string, from: number, lineEnd: number): boolean {
  let at = from;
  while (at < lineEnd && source.charCodeAt(at) === SPACE) at++;
  return at === lineEnd || (at < lineEnd && at > from && source.charCodeAt(at) === HASH);
}

/** What `numberEnd` read last: a pair for each number would be the most common object of all. */
let parsed = 0;
/** So many digits are a whole number that a double holds, and a power of ten that it holds: their quotient is rounded once, rightly. */
const mostDigits = 15;
const powersOfTen = Array.from({ length: mostDigits + 1 }, (_, power) => 10 ** power);

/** Offset after the number `-?digits(.digits)?` that begins at an offset, its value in `parsed`; −1 where there is none. */
function numberEnd(source: string, start: number): number {
  const isNegative = source.charCodeAt(start) === DASH;
  const first = isNegative ? start + 1 : start;
  let at = first;
  let whole = 0;
  let code = source.charCodeAt(at);
  for (; isDigit(code); code = source.charCodeAt(++at)) whole = whole * 10 + (code - 48);
  if (at === first) return -1;
  let decimals = 0;
  if (code === POINT) {
    const point = at;
    code = source.charCodeAt(++at);
    for (; isDigit(code); code = source.charCodeAt(++at)) whole = whole * 10 + (code - 48);
    decimals = at - point - 1;
    if (decimals === 0) return -1;
  }
  if (at - first > mostDigits) return -1;
  const size = decimals === 0 ? whole : whole / powersOfTen[decimals];
  parsed = isNegative ? -size : size;
  return at;
}
