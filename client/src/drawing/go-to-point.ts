import { Uri, ViewColumn } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { TextRange } from '../jobs/job-entries';
import { showPlace } from '../show-place';

interface Place {
  readonly uri: string;
  readonly range: TextRange;
}

/** A point of the drawing, or with `to` its distance to another. */
export interface Drawn {
  readonly point: string;
  readonly to: string | null;
}

/**
 * To what the text says of a point or a distance: its reading in a stage, else its newest, else its reference. Nowhere where it says
 * nothing.
 * @param before told of the file just before it comes to front
 */
export async function goToPoint(
  client: BaseLanguageClient,
  drawn: string,
  stage: number | null,
  { point, to }: Drawn,
  before: (uri: string) => void,
): Promise<void> {
  const place = await client.sendRequest<Place | null>('framewright/drawingPlace', {
    uri: drawn,
    stage,
    point,
    to,
  });
  if (!place) return;
  const uri = Uri.parse(place.uri, true);
  before(uri.toString());
  await showPlace(uri, place.range, ViewColumn.One);
}
