import { oneDocumentOf } from '../document';
import { ParseState } from '../parse-state';
import { type Node, offsetsOf, type TextProblem, type TextRule, type TextTree } from '../tree';
import { assembled } from './assembly';
import { BlockScanner } from './blocks';
import { type Chunk, moveTo, readChunk, readChunkApart } from './chunks';
import { type Cut, type CutsAfter, cutsAfter, cutsOf } from './cuts';
import { structureLinesOf } from './structure';

/** UTF-16 units. The largest job seen has some hundred readings; this is room for a hundred thousand. */
const LONGEST = 8 * 1024 * 1024;

/** Past this many a file is not mended problem by problem, and nobody reads on. */
const MOST_PROBLEMS = 1000;

/** Whether a tree that was edited complains when somebody still reads it: on in tests, off in the product. */
export const staleTrees = { throwWhenRead: false };

/**
 * A tree made of chunks, which the next parse of the same file takes over and moves. After that this tree is *superseded*: its
 * values are still what they were, but its places are where the new text has them, so nobody may use it any more.
 */
class ChunkedTree implements TextTree {
  private isSuperseded = false;

  constructor(
    readonly text: string,
    private readonly ownRoot: Node | null,
    readonly problems: readonly TextProblem[],
    private readonly ownChunks: readonly Chunk[],
  ) {}

  get root(): Node | null {
    if (this.isSuperseded && staleTrees.throwWhenRead)
      throw new Error('a tree is read after its text was edited');
    return this.ownRoot;
  }

  /** Hands the chunks over to the tree that comes after this one. */
  superseded(): readonly Chunk[] {
    this.isSuperseded = true;
    return this.ownChunks;
  }
}

/**
 * The tree of a YAML text; never throws, and always as much of a tree as can be read.
 *
 * @param previous the tree of the same file before an edit: what has the same text in both is taken over, nodes and all, and
 *   moved to where it stands now; `previous` is superseded then and must not be read any more
 */
export const parseText = (text: string, previous?: TextTree): TextTree => {
  if (previous?.text === text) return previous;
  if (text.length > LONGEST) return refused(text, 'text/too-large', 'the file is larger than 8 MB');
  if (isBinary(text)) return refused(text, 'text/syntax', 'this is not a text file');
  const old = previous instanceof ChunkedTree ? previous.superseded() : [];
  const cut = cutsAfter(text, old) ?? cutsAnew(text);
  if (cut !== null) {
    const chunks = chunksAt(text, cut, old);
    const whole = assembled(chunks, text);
    if (whole !== null) return new ChunkedTree(text, whole.root, inTextOrder(whole.problems), chunks);
  }
  const document = oneDocumentOf(text);
  const { from, to, slips, conflicts } = document;
  const state = new ParseState(document.text, conflicts);
  for (const { message, start, end } of slips) state.reportSyntax(message, start, end);
  const lines = structureLinesOf(document.text, from, to);
  const root = new BlockScanner(state, lines).root();
  return { text, root, problems: inTextOrder(state.problems.list) };
};

const cutsAnew = (text: string): CutsAfter | null => {
  const cuts = cutsOf(text);
  return cuts && { cuts, front: 0, back: 0 };
};

/**
 * The chunks of a text, those of the same text taken over from the last parse: from the front as far as they go, then from the back.
 * @param known the cuts, and how many at both ends are known to be the same
 */
function chunksAt(text: string, known: CutsAfter, old: readonly Chunk[]): Chunk[] {
  const { cuts } = known;
  const same = (chunk: Chunk | undefined, { start, end, kind }: Cut): boolean =>
    chunk !== undefined &&
    chunk.kind === kind &&
    chunk.text.length === end - start &&
    // Node compares whole texts by blocks, but looks for a beginning one character after the other
    text.slice(start, end) === chunk.text;
  let { front, back } = known;
  const most = Math.min(cuts.length, old.length);
  while (front < most - back && same(old[front], cuts[front])) front++;
  while (back < most - front && same(old[old.length - 1 - back], cuts[cuts.length - 1 - back])) back++;
  return cuts.map((cut, i) => {
    const taken =
      i < front ? old[i] : i >= cuts.length - back ? old[old.length - (cuts.length - i)] : undefined;
    if (taken === undefined) return old.length === 0 ? readChunk(text, cut) : readChunkApart(text, cut);
    moveTo(taken, cut.start);
    return taken;
  });
}

const inTextOrder = (list: readonly TextProblem[]): TextProblem[] =>
  list
    .map((problem) => ({ problem, start: offsetsOf(problem.place).start }))
    .sort((a, b) => a.start - b.start)
    .map(({ problem }) => problem)
    .slice(0, MOST_PROBLEMS);

const refused = (text: string, rule: TextRule, message: string): TextTree => {
  const firstLine = /[\r\n]/.exec(text.slice(0, 200))?.index ?? Math.min(text.length, 200);
  const place = { block: { start: 0 }, start: 0, end: Math.max(firstLine, 1) };
  return { text, root: null, problems: [{ rule, message, place }] };
};

/** A NUL, or many other controls or bytes that were no UTF-8 near the start: a picture, an archive, a spreadsheet. */
const isBinary = (text: string): boolean => {
  if (text.includes('\0')) return true;
  const start = text.slice(0, 8192);
  const strange = start.match(/[\x01-\x08\x0b\x0c\x0e-\x1f\ufffd]/g)?.length ?? 0;
  return strange > 8 && strange > start.length / 50;
};
