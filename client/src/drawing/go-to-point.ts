import { Uri, ViewColumn } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { TextRange } from '../job-entries';
import { showPlace } from '../show-place';

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
  const uri = Uri.parse(place.uri, true);
  before(uri.toString());
  await showPlace(uri, place.range, ViewColumn.One);
}
