import { Anchors } from './anchors';
import { ProblemList } from './problem-list';
import type { Block, MapEntry, Place } from './tree';
import { offsetsOf, textOf } from './tree';

/** How deep lists and maps may lie in each other. */
export const DEEPEST = 100;

/** What every part of one parse of a text shares. */
export class ParseState {
  readonly problems = new ProblemList();
  readonly anchors = new Anchors();

  /**
   * @param conflicts stretches between merge markers, where both sides name the same keys
   * @param from and `to`: offsets between which everything lies
   */
  constructor(
    readonly text: string,
    readonly conflicts: readonly { start: number; end: number }[],
    readonly from = 0,
    readonly to = text.length,
  ) {}

  /**
   * Reports at absolute offsets, at least one character wide where the text allows it. `block`: what the place
   * moves with; absent for a line that belongs to no block.
   */
  reportSyntax(message: string, start: number, end: number, block?: Block, related?: Related): void {
    const also = related && [
      { message: related.message, place: this.placeAt(related.at, related.at + 1, block) },
    ];
    this.problems.add('text/syntax', message, this.placeAt(start, end, block), also);
  }

  reportTooDeep(at: number, block?: Block): void {
    const message = `lists and maps lie more than ${DEEPEST} deep in each other here`;
    this.problems.add('text/too-large', message, this.placeAt(at, at + 1, block));
  }

  private placeAt(start: number, end: number, block?: Block): Place {
    const from = Math.max(this.from, Math.min(start, this.to - 1));
    const to = Math.min(Math.max(end, from + 1), this.to);
    const home = block ?? { start: from };
    return { block: home, start: from - home.start, end: to - home.start };
  }
}

interface Related {
  readonly at: number;
  readonly message: string;
}

/** So many names are found sooner by looking at each than in a table. */
const fewNames = 8;

/** The entries of one map: the first of two with the same key stays, the second is reported. */
export class EntryList {
  readonly entries: MapEntry[] = [];
  private readonly names: string[] = [];
  /** The place of each name in the list, once there are more than a few. */
  private places: Map<string, number> | null = null;

  constructor(private readonly state: ParseState) {}

  add(entry: MapEntry): void {
    this.addNamed(textOf(entry.key), entry);
  }

  /** An entry whose name is known without looking at its key. */
  addNamed(name: string, entry: MapEntry): void {
    const first = this.placeOf(name);
    if (first === undefined) {
      this.entries.push(entry);
      return;
    }
    const { start } = offsetsOf(entry.key.place);
    if (this.state.conflicts.some((conflict) => start >= conflict.start && start < conflict.end)) return;
    this.state.problems.add(
      'text/duplicate-key',
      `“${name}” stands here a second time; the first one counts`,
      entry.key.place,
      [{ message: `the first “${name}”`, place: this.entries[first].key.place }],
    );
  }

  /** Where an entry of that name stands; undefined for a new name, which is the next one's from now on. */
  private placeOf(name: string): number | undefined {
    const next = this.entries.length;
    if (this.places !== null) {
      const known = this.places.get(name);
      if (known === undefined) this.places.set(name, next);
      return known;
    }
    const known = this.names.indexOf(name);
    if (known >= 0) return known;
    this.names.push(name);
    if (next >= fewNames) this.places = new Map(this.names.map((each, i) => [each, i]));
    return undefined;
  }
}
