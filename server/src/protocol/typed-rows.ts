import { rowAfterEdit, type TypedRow } from '../editor/typing/typed-row';
import { canonicalUri } from '../workspace/uris';
import { backgroundTimer, type Timer } from './background-timer';

/** So long after the last key a row counts as typed, ms; one that lacks something only where its editor has fallen silent. */
const patienceMs: Record<TypedRow['state'], number> = { finished: 400, filled: 1500, begun: 60_000 };

interface Watched {
  /** Null before it is opened. */
  readonly text: string | null;
  readonly cursor: number | null;
  readonly row: TypedRow | null;
}

interface Hearers {
  /** Nobody types in a row of this document any more: it is to be judged. */
  settled(uri: string): void;
  failed(error: unknown): void;
}

/** Of each open document of an editor that tells where its cursor is: the row that is being typed. */
export class TypedRows {
  private readonly watched = new Map<string, Watched>();
  private readonly timers = new Map<string, Timer>();

  constructor(
    private readonly isWanted: () => boolean,
    private readonly hearers: Hearers,
  ) {}

  rowOf(uri: string): TypedRow | null {
    return this.watched.get(canonicalUri(uri))?.row ?? null;
  }

  edited(uri: string, text: string): void {
    if (!this.isWanted()) return;
    const { text: old = null, cursor = null, row: was = null } = this.watched.get(canonicalUri(uri)) ?? {};
    const row = old === null ? null : rowAfterEdit(was, old, text, cursor);
    this.watched.set(canonicalUri(uri), { text, cursor, row });
    this.wait(uri, row);
  }

  /** @param line null: in none of its lines, or what was typed is to be judged now */
  cursorAt(uri: string, line: number | null): void {
    if (!this.isWanted()) return;
    const known = this.watched.get(canonicalUri(uri)) ?? { text: null, row: null };
    const isLeft = known.row !== null && known.row.line !== line;
    this.watched.set(canonicalUri(uri), { ...known, cursor: line, row: isLeft ? null : known.row });
    if (isLeft) this.settle(uri);
    else this.wait(uri, known.row);
  }

  closed(uri: string): void {
    this.wait(uri, null);
    this.watched.delete(canonicalUri(uri));
  }

  /** From the last word of the editor on. */
  private wait(uri: string, row: TypedRow | null): void {
    clearTimeout(this.timers.get(canonicalUri(uri)));
    this.timers.delete(canonicalUri(uri));
    if (row === null) return;
    const end = () => this.settle(uri);
    this.timers.set(canonicalUri(uri), backgroundTimer(end, patienceMs[row.state], this.hearers.failed));
  }

  private settle(uri: string): void {
    const known = this.watched.get(canonicalUri(uri));
    if (known) this.watched.set(canonicalUri(uri), { ...known, row: null });
    this.wait(uri, null);
    this.hearers.settled(uri);
  }
}
