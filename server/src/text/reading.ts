import { Anchors } from './anchors';
import { Problems } from './problems';
import type { Block, MapEntry, Place } from './tree';
import { offsetsOf, textOf } from './tree';

/** How deep lists and maps may lie in each other. */
export const DEEPEST = 100;

/** What every part of one reading of a text shares. */
export class Reading {
  readonly problems = new Problems();
  readonly anchors = new Anchors();

  /** `conflicts`: stretches between merge markers, where both sides name the same keys. */
  constructor(
    readonly text: string,
    readonly conflicts: readonly { start: number; end: number }[],
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
    const from = Math.max(0, Math.min(start, this.text.length - 1));
    const to = Math.min(Math.max(end, from + 1), this.text.length);
    const home = block ?? { start: from };
    return { block: home, start: from - home.start, end: to - home.start };
  }
}

interface Related {
  readonly at: number;
  readonly message: string;
}

/** The entries of one map: the first of two with the same key stays, the second is reported. */
export class EntryList {
  readonly entries: MapEntry[] = [];
  private readonly seen = new Map<string, MapEntry>();

  constructor(private readonly reading: Reading) {}

  add(entry: MapEntry): void {
    this.addNamed(textOf(entry.key), entry);
  }

  /** An entry whose name is known without looking at its key. */
  addNamed(name: string, entry: MapEntry): void {
    const first = this.seen.get(name);
    if (!first) {
      this.seen.set(name, entry);
      this.entries.push(entry);
      return;
    }
    const { start } = offsetsOf(entry.key.place);
    if (this.reading.conflicts.some((conflict) => start >= conflict.start && start < conflict.end)) return;
    this.reading.problems.add(
      'text/duplicate-key',
      `“${name}” stands here a second time; the first one counts`,
      entry.key.place,
      [{ message: `the first “${name}”`, place: first.key.place }],
    );
  }
}
