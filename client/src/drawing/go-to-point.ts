import type { FilePlace } from '@framewright/schemas/wire';
import { Uri, ViewColumn } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { showPlace } from '../show-place';

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
  const place = await client.sendRequest<FilePlace | null>('framewright/drawingPlace', {
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
