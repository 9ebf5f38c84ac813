import type { LineRange } from '@framewright/schemas/wire';
import { Range, Selection, TextEditorRevealType, type Uri, type ViewColumn, window } from 'vscode';

/**
 * Brings a place of a file to front and puts the cursor at its start.
 * @param otherwise the column for a file that is not seen yet; the active one where none is given
 */
export async function showPlace(uri: Uri, { start, end }: LineRange, otherwise?: ViewColumn): Promise<void> {
  const name = uri.toString();
  // where it is seen already, not a second time
  const seen = window.visibleTextEditors.find(({ document }) => document.uri.toString() === name);
  const editor = await window.showTextDocument(uri, { viewColumn: seen?.viewColumn ?? otherwise });
  const range = new Range(start.line, start.character, end.line, end.character);
  editor.selection = new Selection(range.start, range.start);
  editor.revealRange(range, TextEditorRevealType.InCenterIfOutsideViewport);
}
