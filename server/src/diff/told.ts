import type { DiffFile } from '@framewright/schemas';
import type { Analysis } from '../workspace/workspace';
import type { Line } from './line';

/** One file of two sides, as each side has it. */
export interface Sides {
  readonly path: string;
  /** How it was called; null: as now. */
  readonly was: string | null;
  readonly status: DiffFile['status'];
  /** Null: there is no such file there, or nothing could be made of it, as a note says. */
  readonly before: Analysis | null;
  readonly after: Analysis | null;
  /** What could not be had. */
  readonly notes: readonly string[];
}

/** What rests on a file. */
export type Resting = Pick<DiffFile, 'variants' | 'touches' | 'untouched'>;

/** What became of a file, with its lines for people. */
export interface Told {
  readonly file: DiffFile;
  readonly lines: readonly Line[];
}

export interface Found {
  readonly facts: Pick<DiffFile, 'meaning' | 'verdict'> & Partial<DiffFile>;
  readonly lines: readonly Line[];
}
