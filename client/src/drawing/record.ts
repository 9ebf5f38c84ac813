import type { RecordAnswer } from '@framewright/schemas/wire';
import { commands, type Disposable, env, l10n, Uri, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type NamedFile, uriOf } from '../named-file';
import { output } from '../output';

/** *Write Dimensional Record…*: asks for a file, writes the page of the job there and offers to open it. */
export const recordCommand = (client: () => BaseLanguageClient | undefined): Disposable =>
  commands.registerCommand('framewright.writeRecord', async (named?: NamedFile) => {
    const file = uriOf(named) ?? window.activeTextEditor?.document.uri;
    const running = client();
    if (file === undefined || running === undefined) {
      void window.showInformationMessage(l10n.t('Open a job first: its record is made from it.'));
      return;
    }
    let written: Uri | undefined;
    try {
      written = await writtenRecord(running, file);
    } catch (reason) {
      output().error(`The record was not written: ${reason}`);
      void window.showErrorMessage(
        l10n.t('The record was not written: {0}', reason instanceof Error ? reason.message : String(reason)),
      );
    }
    if (written) await offer(written);
  });

/** Where the record went; undefined where there is none. */
async function writtenRecord(client: BaseLanguageClient, file: Uri): Promise<Uri | undefined> {
  const answer = await client.sendRequest<RecordAnswer>('framewright/report', { uri: file.toString() });
  if (!('html' in answer)) {
    void window.showWarningMessage(answer.message);
    return undefined;
  }
  const target = await window.showSaveDialog({
    title: l10n.t('Write the dimensional record'),
    filters: { HTML: ['html'] },
    defaultUri: Uri.joinPath(file, '..', answer.name),
  });
  if (target !== undefined) await workspace.fs.writeFile(target, new TextEncoder().encode(answer.html));
  return target;
}

async function offer(target: Uri): Promise<void> {
  const name = target.path.slice(target.path.lastIndexOf('/') + 1);
  // a browser here cannot read what lies on another machine or in the memory of a page
  const canBrowse = target.scheme === 'file' && env.remoteName === undefined;
  const [browse, show] = [l10n.t('Open in Browser'), l10n.t('Show Text')];
  const chosen = await window.showInformationMessage(
    l10n.t('{0} is written.', name),
    ...(canBrowse ? [browse] : []),
    show,
  );
  if (chosen === browse) await env.openExternal(target);
  if (chosen === show) await window.showTextDocument(target);
}
