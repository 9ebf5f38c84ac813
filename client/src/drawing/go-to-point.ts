import { Range, Selection, TextEditorRevealType, Uri, ViewColumn, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { TextRange } from '../job-entries';

interface Place {
  readonly uri: string;
  readonly range: TextRange;
}

/**
 * To what the text says of a point: its reading in a stage, else its newest, else its reference. Nowhere where it says nothing.
 * @param before told of the file just before it comes to front
 */
export async function goToPoint(
  client: BaseLanguageClient,
  drawn: string,
  stage: number | null,
  point: string,
  before: (uri: string) => void,
): Promise<void> {
  const place = await client.sendRequest<Place | null>('framewright/drawingPlace', {
    uri: drawn,
    stage,
    point,
  });
  if (!place) return;
  const { start, end } = place.range;
  const range = new Range(start.line, start.character, end.line, end.character);
  const uri = Uri.parse(place.uri, true);
  before(uri.toString());
  const shown = window.visibleTextEditors.find(({ document }) => document.uri.toString() === uri.toString());
  const editor = await window.showTextDocument(await workspace.openTextDocument(uri), {
    viewColumn: shown?.viewColumn ?? ViewColumn.One,
    preserveFocus: false,
  });
  editor.selection = new Selection(range.start, range.start);
  editor.revealRange(range, TextEditorRevealType.InCenterIfOutsideViewport);
}
