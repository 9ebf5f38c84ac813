import type { TextEdit } from '../../text/edits';
import { linesOf, type Position } from '../../text/lines';

/** An edit with the positions that its offsets have in the file as it stands, so that the file's text need not be kept. */
export interface PlacedEdit extends TextEdit {
  readonly range: { readonly start: Position; readonly end: Position };
  /** It changes what somebody signed: an editor that can asks before it makes it. */
  readonly ofSignOff: boolean;
}

export interface FileEdits {
  readonly uri: string;
  readonly edits: readonly PlacedEdit[];
}

/** In text order; of two at one place the first, as an alias repeats what its anchor says. */
export function placed(text: string, edits: readonly TextEdit[], ofSignOff = false): PlacedEdit[] {
  const lines = linesOf(text);
  const byStart = new Map<number, TextEdit>();
  for (const edit of edits) if (!byStart.has(edit.start)) byStart.set(edit.start, edit);
  return [...byStart.values()]
    .sort((a, b) => a.start - b.start)
    .map((edit) => ({
      ...edit,
      range: { start: lines.positionAt(edit.start), end: lines.positionAt(edit.end) },
      ofSignOff,
    }));
}
