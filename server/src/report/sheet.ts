import type { SheetPatch } from '@framewright/schemas/wire';
import { type Markup, markup } from './markup';

/**
 * A picture or a table as its outer element and what lies in it, piece by piece, so that a view on a screen is patched where something
 * changed. Each piece is one element and has a key; they lie in the order of the map.
 */
export interface Sheet {
  readonly name: string;
  readonly open: Markup;
  readonly pieces: ReadonlyMap<string, Markup>;
  readonly close: Markup;
}

/** @param first stands before the pieces */
export const wholeSheet = ({ open, pieces, close }: Sheet, first: Markup | null = null): Markup =>
  markup`${open}${first}${[...pieces.values()]}${close}`;

/** From what is shown to what is to be shown; null where that is the same. */
export function sheetPatch(shown: Sheet | null, wanted: Sheet): SheetPatch | null {
  const { name, open, pieces, close } = wanted;
  const anew = shown === null || shown.open.markup !== open.markup;
  const before: Sheet['pieces'] = anew ? new Map() : shown.pieces;
  const changed: [string, string][] = [];
  for (const [key, piece] of pieces)
    if (before.get(key)?.markup !== piece.markup) changed.push([key, piece.markup]);
  const order = anew || !sameKeys(before, pieces) ? [...pieces.keys()] : null;
  if (!anew && order === null && changed.length === 0) return null;
  return { name, shell: anew ? open.markup + close.markup : null, order, pieces: changed };
}

function sameKeys(a: Sheet['pieces'], b: Sheet['pieces']): boolean {
  if (a.size !== b.size) return false;
  const others = b.keys();
  for (const key of a.keys()) if (others.next().value !== key) return false;
  return true;
}
