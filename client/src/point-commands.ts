import type { Entry, OutsidePlace } from '@framewright/schemas/wire';
import { commands, type Disposable, window } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { nothingOutsideWords } from './jobs/entry-words';
import { openJob } from './jobs/open-job';
import { type NamedFile, uriOf } from './named-file';
import { nextStop, stopWords } from './outside';
import { showPlace } from './show-place';

/** How long the words on a point stay in the status bar, ms. */
const wordsMs = 8000;

/** *Go to Next / Previous Point Outside Tolerance* and *Go to Worst Point*. */
export const pointCommands = (client: () => BaseLanguageClient | undefined): Disposable[] => [
  commands.registerCommand('framewright.nextPointOutside', () => goToOutside(client(), 'next')),
  commands.registerCommand('framewright.previousPointOutside', () => goToOutside(client(), 'previous')),
  commands.registerCommand('framewright.goToWorstPoint', (named?: NamedFile) => goToWorst(client(), named)),
];

const goToOutside = async (
  client: BaseLanguageClient | undefined,
  way: 'next' | 'previous',
): Promise<void> => {
  const editor = await openJob();
  if (!client || !editor) return;
  const uri = editor.document.uri.toString();
  const { places } = await client.sendRequest<{ places: OutsidePlace[] }>('framewright/outside', { uri });
  const stop = nextStop(places, editor.selection.active.line, way);
  if (stop === null) {
    const entry = await entryOf(client, uri);
    // a message, as a screen reader reads those aloud
    void window.showInformationMessage(nothingOutsideWords(entry));
    return;
  }
  await showPlace(editor.document.uri, stop.place.range);
  say(stopWords(stop, places.length, way), uri);
};

/** In the status bar for a while, but not when another file comes to front. */
const say = (words: string, uri: string): void => {
  const message = window.setStatusBarMessage(words, wordsMs);
  const watch = window.onDidChangeActiveTextEditor((editor) => {
    if (editor && editor.document.uri.toString() !== uri) end();
  });
  const timer = setTimeout(() => end(), wordsMs);
  const end = (): void => {
    clearTimeout(timer);
    watch.dispose();
    message.dispose();
  };
};

const goToWorst = async (client: BaseLanguageClient | undefined, named?: NamedFile): Promise<void> => {
  const uri = uriOf(named) ?? (await openJob())?.document.uri;
  if (!client || !uri) return;
  // asked anew: what the status bar showed may be an edit old
  const entry = await entryOf(client, uri.toString());
  if (entry?.kind === 'job' && entry.worst) await showPlace(uri, entry.worst.range);
  else void window.showInformationMessage(nothingOutsideWords(entry));
};

const entryOf = async (client: BaseLanguageClient, uri: string): Promise<Entry | undefined> => {
  const { entries } = await client.sendRequest<{ entries: Entry[] }>('framewright/jobEntries', {
    uris: [uri],
  });
  return entries[0];
};
