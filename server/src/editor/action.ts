import type { Finding } from '../findings/finding';
import type { TextEdit } from '../text/edits';

/** Something the editor offers to do at a place: edits to the file that was asked about. */
export interface Action {
  readonly title: string;
  readonly kind: 'quickfix' | 'refactor.rewrite' | 'source' | 'refactor.inline';
  readonly edits: readonly TextEdit[];
  readonly preferred: boolean;
  /** The finding that it mends. */
  readonly mends: Finding | null;
}
