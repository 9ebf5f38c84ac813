import type { JudgingVersion } from '@framewright/schemas';
import type { Carried } from '../alignment/carried';
import type { SeenGroup } from './witnesses-seen';

/** Another way to tell the control points apart: who stood still and who moved. */
export interface Alternative {
  readonly base: readonly string[];
  readonly moved: readonly string[];
  /** Single points; two zones of the length; or what a story says: moved or turned as one, or a floor that leans or turns. */
  readonly kind: 'points' | 'zones' | 'shift' | 'body' | 'lean' | 'turn';
  /** Of a floor that leans or turns. */
  readonly growth?: Growth;
}

/** A lean or a turn that grows beyond a place along the length. */
export interface Growth {
  readonly to: 'front' | 'rear';
  readonly beyondMm: number;
  /** Of a lean: to the left and up, mm per metre; of a turn: by how much the left side rises, mm per metre of either. */
  readonly perMetre: readonly number[];
}

export type AlignmentFault =
  | { readonly kind: 'too-few'; readonly count: number; readonly setUpNew: boolean }
  /** Their places in the sheet, or, where `asRead`, the readings alone: then they were misread. */
  | { readonly kind: 'collinear'; readonly ids: readonly string[]; readonly asRead: boolean }
  | { readonly kind: 'mirrored' }
  /** Null: the readings have no size at all. */
  | { readonly kind: 'scale'; readonly scale: number | null; readonly nearest: number }
  | { readonly kind: 'inconsistent'; readonly ids: readonly string[] }
  | { readonly kind: 'ambiguous'; readonly since: JudgingVersion }
  /** One of these has moved and no figure hangs on which: none of them is in the base, and none is accused. */
  | { readonly kind: 'one-of'; readonly ids: readonly string[] }
  /** A base of four or five that all around contradicts, or that has members which everything else together contradicts. */
  | {
      readonly kind: 'doubted';
      readonly since: JudgingVersion;
      readonly groups: readonly SeenGroup[];
      readonly ids: readonly string[];
    }
  /** Moved and left out of the base, or listed as base and kept in it. */
  | { readonly kind: 'moved'; readonly ids: readonly string[]; readonly kept: boolean }
  /** A base as listed, which the readings tell otherwise of; the best story first. It is kept. */
  | { readonly kind: 'list-contradicts'; readonly stories: readonly Alternative[] }
  | { readonly kind: 'unchecked'; readonly why: 'three' | 'plane' }
  /** Taken over across work, or by a car that moved, and not confirmed. */
  | { readonly kind: 'carried'; readonly carried: Carried };
