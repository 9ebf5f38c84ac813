import { commands, type Disposable, l10n, Uri, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { chassisPattern } from '../patterns';
import { exists, folderForNewFile, namesIn, writeAndShow } from '../workspace-files';
import { chassisFileName, newChassisText } from './new-chassis-text';
import { askedTable } from './table-file';
import { agreedTable, keepLayout } from './table-review';

const ways = [
  {
    label: `$(table) ${l10n.t('From a table…')}`,
    detail: l10n.t('Names and positions from a file: csv, txt, xlsx.'),
    way: 'table',
  },
  {
    label: `$(new-file) ${l10n.t('From a skeleton')}`,
    detail: l10n.t('A file to fill in by hand.'),
    way: 'skeleton',
  },
  {
    label: `$(beaker) ${l10n.t('An example')}`,
    detail: l10n.t('An invented body to try things with.'),
    way: 'example',
  },
] as const;

/** *New Chassis…*: a shop's own body, its points from a table or to be typed. */
export const newChassisCommand = (client: () => BaseLanguageClient | undefined): Disposable =>
  commands.registerCommand('framewright.newChassis', async () => {
    const chosen = await window.showQuickPick(ways, { title: l10n.t('New chassis') });
    if (chosen?.way === 'example') await commands.executeCommand('framewright.newExampleChassis');
    else if (chosen) await newChassis(client(), chosen.way === 'table');
  });

async function newChassis(client: BaseLanguageClient | undefined, fromTable: boolean): Promise<void> {
  const root = await folderForNewFile();
  if (!root) return;
  const folder = await folderOfBodies(root.uri);
  const table = fromTable
    ? await askedTable(l10n.t('Table of the new chassis'), Uri.joinPath(folder, 'x'))
    : null;
  if (table === undefined) return;
  const taken = await namesIn(folder);
  const fault = (vehicle: string): string | undefined => {
    const name = chassisFileName(vehicle);
    if (name === null) return l10n.t('A vehicle needs a name with letters or figures.');
    return taken.has(name) ? l10n.t('There is a file {0} already.', name) : undefined;
  };
  const vehicle = await window.showInputBox({
    title: l10n.t('New chassis'),
    prompt: l10n.t(
      'The vehicle, as the shop calls it; the file goes into {0}',
      workspace.asRelativePath(folder),
    ),
    placeHolder: 'Marten, hatchback',
    ignoreFocusOut: true,
    validateInput: (typed) => (typed.trim() === '' ? undefined : fault(typed)),
  });
  const name = vehicle && chassisFileName(vehicle);
  if (!name || fault(vehicle) !== undefined) return;
  const uri = Uri.joinPath(folder, name);
  const begun = newChassisText(vehicle.trim());
  const agreed =
    table === null || !client ? null : await agreedTable(client, table, { uri: uri.toString(), begun });
  if (agreed === undefined) return;
  if (await exists(uri)) {
    void window.showErrorMessage(l10n.t('There is a file {0} already.', name));
    return;
  }
  await writeAndShow(uri, agreed?.answer.text ?? begun);
  if (client && table && agreed?.keeps) await keepLayout(client, uri, table, agreed.answer);
}

/** Where the folder's chassis files are; `specs/` where there is none yet. */
async function folderOfBodies(root: Uri): Promise<Uri> {
  const found = await workspace.findFiles(chassisPattern, '**/node_modules/**', 100);
  const [first] = found.map(({ path }) => path).sort();
  return first?.startsWith(root.path)
    ? root.with({ path: first.slice(0, first.lastIndexOf('/')) })
    : Uri.joinPath(root, 'specs');
}
