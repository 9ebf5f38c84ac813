import type { FilePlace, LinePosition } from '@framewright/schemas/wire';
import { commands, type Disposable, type Location, l10n, Position, Uri, window } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { showPlace } from './show-place';

/** Commands that the server may name in what it offers. */
export const showing = [
  'framewright.showDrawing',
  'framewright.showPlan',
  'framewright.goToReference',
  'framewright.signOff',
  'framewright.showUses',
  'framewright.choose',
  'framewright.reveal',
];

/** What was written gets the cursor; a point leads to what it is measured against. */
export const showingCommands = (client: () => BaseLanguageClient | undefined): Disposable[] => [
  commands.registerCommand('framewright.reveal', (uri: string, at: LinePosition) =>
    showPlace(Uri.parse(uri, true), { start: at, end: at }),
  ),
  commands.registerCommand('framewright.goToReference', async (uri: string, point: string) => {
    const place = await client()?.sendRequest<FilePlace | null>('framewright/referencePlace', { uri, point });
    if (place) await showPlace(Uri.parse(place.uri, true), place.range);
    else void window.showInformationMessage(l10n.t('No chassis file states where {0} belongs.', point));
  }),
  commands.registerCommand('framewright.showUses', async (uri: string, name: string) => {
    const [file, at] = [Uri.parse(uri, true), await placeOfPoint(client(), uri, name)];
    if (at === null) return;
    const uses = await commands.executeCommand<Location[]>('vscode.executeReferenceProvider', file, at);
    await commands.executeCommand('editor.action.showReferences', file, at, uses);
  }),
];

/** Where a chassis file states a point of a name, of one side or of both. */
async function placeOfPoint(
  client: BaseLanguageClient | undefined,
  uri: string,
  name: string,
): Promise<Position | null> {
  for (const point of [name, `${name}.L`, `${name}.R`]) {
    const place = await client?.sendRequest<FilePlace | null>('framewright/referencePlace', { uri, point });
    if (place?.uri === uri) return new Position(place.range.start.line, place.range.start.character);
  }
  return null;
}
