import type { Carried } from '../alignment/carried';
import type { SeenGroup } from './witnesses-seen';

/** Another way to tell the control points apart: who stood still and who moved. */
export interface Alternative {
  readonly base: readonly string[];
  readonly moved: readonly string[];
}

export type AlignmentFault =
  | { readonly kind: 'too-few'; readonly count: number; readonly setUpNew: boolean }
  /** Their places in the sheet, or, where `asRead`, the readings alone: then they were misread. */
  | { readonly kind: 'collinear'; readonly ids: readonly string[]; readonly asRead: boolean }
  | { readonly kind: 'mirrored' }
  /** Null: the readings have no size at all. */
  | { readonly kind: 'scale'; readonly scale: number | null; readonly nearest: number }
  | { readonly kind: 'inconsistent'; readonly ids: readonly string[] }
  | { readonly kind: 'ambiguous' }
  /** One of these has moved and no figure hangs on which: none of them is in the base, and none is accused. */
  | { readonly kind: 'one-of'; readonly ids: readonly string[] }
  /** A base of four or five that all around contradicts, or that has members which everything else together contradicts. */
  | { readonly kind: 'doubted'; readonly groups: readonly SeenGroup[]; readonly ids: readonly string[] }
  /** Moved and left out of the base, or listed as base and kept in it. */
  | { readonly kind: 'moved'; readonly ids: readonly string[]; readonly kept: boolean }
  | { readonly kind: 'unchecked'; readonly why: 'three' | 'plane' }
  /** Taken over across work, or by a car that moved, and not confirmed. */
  | { readonly kind: 'carried'; readonly carried: Carried };
