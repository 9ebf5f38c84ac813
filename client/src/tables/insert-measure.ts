import { commands, type Disposable, l10n, type Uri, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { madeIn } from '../answers';
import { openJob } from '../jobs/open-job';
import { type NamedFile, uriOf } from '../named-file';
import { chassisEnding } from '../patterns';
import { askedTable } from './table-file';
import { agreedTable, keepLayout } from './table-review';

/** *Insert Measure from Table…*: into the open job, or points into the open chassis file. */
export const insertMeasureCommand = (client: () => BaseLanguageClient | undefined): Disposable =>
  commands.registerCommand('framewright.insertMeasure', async (named?: NamedFile, given?: Uri) => {
    const running = client();
    const uri = uriOf(named) ?? openChassis() ?? (await openJob())?.document.uri;
    if (!running || !uri) {
      void window.showInformationMessage(l10n.t('Open a job first: the rows of the table go into it.'));
      return;
    }
    const table = given ?? (await askedTable(l10n.t('Insert Measure from Table'), uri));
    if (!table) return;
    const document = await workspace.openTextDocument(uri);
    const { version } = document;
    const agreed = await agreedTable(running, table, { uri: uri.toString(), begun: null });
    if (!agreed) return;
    const isWritten = await madeIn(document, version, agreed.answer.edits);
    if (isWritten && agreed.keeps) await keepLayout(running, uri, table, agreed.answer);
  });

const openChassis = (): Uri | undefined => {
  const uri = window.activeTextEditor?.document.uri;
  return uri?.path.endsWith(chassisEnding) ? uri : undefined;
};
