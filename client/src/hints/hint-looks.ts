/** How a hint looks, by what it says of its row: past its limit by a sign and weight, well inside it quiet. Shape before colour. */

type HintKind = 'outside' | 'undecided' | 'within' | 'unjudged';

interface HintLook {
  /** Stands before the words. */
  readonly sign: string;
  readonly weight: 'bold' | 'normal';
  /** Contributed by the extension, for each kind of theme. */
  readonly colour: string;
}

const looks: Readonly<Record<HintKind, HintLook>> = {
  outside: { sign: '! ', weight: 'bold', colour: 'framewright.hint.outside' },
  undecided: { sign: '? ', weight: 'normal', colour: 'framewright.hint.undecided' },
  within: { sign: '', weight: 'normal', colour: 'framewright.hint.within' },
  unjudged: { sign: '', weight: 'normal', colour: 'framewright.hint.within' },
};

export const lookOf = (kind: unknown): HintLook =>
  looks[kind === 'outside' || kind === 'undecided' || kind === 'unjudged' ? kind : 'within'];

/** A hint behind the text of a row. */
export interface RowHint {
  readonly line: number;
  readonly character: number;
  readonly text: string;
  readonly kind: unknown;
}

/** A row that is longer than the usual one by more than this, as one that was read twice, has its hint behind it: it must not push all others out of sight. */
const mostBlanks = 12;

/** How far each hint is moved to the right, in characters, so that those of one table begin in one column, but behind rows that are far longer. */
export function indents(hints: readonly RowHint[]): number[] {
  const column = (of: readonly RowHint[]): number => {
    const ends = of.map(({ character }) => character).sort((a, b) => a - b);
    const usual = ends[(ends.length - 1) >> 1];
    return Math.max(...ends.filter((end) => end <= usual + mostBlanks));
  };
  const sorted = [...hints].sort((a, b) => a.line - b.line);
  const blanks = new Map<RowHint, number>();
  let table: RowHint[] = [];
  const close = (): void => {
    if (table.length === 0) return;
    const start = column(table);
    for (const hint of table) blanks.set(hint, Math.max(0, start - hint.character));
    table = [];
  };
  for (const hint of sorted) {
    const last = table.at(-1);
    // rows of one measure stand below one another, with a comment between at most
    if (last !== undefined && hint.line - last.line > 2) close();
    table.push(hint);
  }
  close();
  return hints.map((hint) => blanks.get(hint) ?? 0);
}
