import type { ChassisPoints } from '@framewright/schemas/wire';
import {
  commands,
  type Disposable,
  l10n,
  Range,
  Selection,
  Uri,
  WorkspaceEdit,
  window,
  workspace,
} from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { exampleChassis, exampleChassisPath, exampleReadingEdits } from '../example';
import { chassisEnding, chassisPattern } from '../patterns';
import { columnForFile, exists, folderForNewFile, namesIn, writeAndShow } from '../workspace-files';
import { jobFileName, jobFolderOf, nameFault, newJobText, pathFrom } from './new-job';
import { openJob } from './open-job';

/** What a list of chassis files gives a command that is chosen on one of its lines. */
interface Chosen {
  readonly kind: 'entry';
  readonly uri: string;
}

/** *New Job from Chassis*, *New Example Chassis* and, for the walkthrough, *Enter Example Readings*. */
export const jobCommands = (client: () => BaseLanguageClient | undefined): Disposable[] => [
  commands.registerCommand('framewright.newJob', (given?: Uri | Chosen) => newJob(client(), given)),
  commands.registerCommand('framewright.newExampleChassis', newExampleChassis),
  commands.registerCommand('framewright.enterExampleReadings', enterExampleReadings),
];

const newJob = async (client: BaseLanguageClient | undefined, given?: Uri | Chosen): Promise<void> => {
  if (!client) return;
  const chassis = await chassisFor(given);
  if (!chassis) return;
  const folder = workspace.getWorkspaceFolder(chassis);
  // outside of all folders the job stands beside its chassis file
  const root = folder?.uri ?? Uri.joinPath(chassis, '..');
  const chassisPath = chassis.path.slice(root.path.replace(/\/$/, '').length + 1);
  const jobFolder = folder ? jobFolderOf(chassisPath) : '';
  const taken = await namesIn(Uri.joinPath(root, jobFolder));
  const order = await window.showInputBox({
    title: l10n.t('New job'),
    prompt: l10n.t(
      'Number of the work order; the file goes into {0}',
      jobFolder === '' ? l10n.t('the same folder') : `${jobFolder}/`,
    ),
    placeHolder: 'W-2041',
    ignoreFocusOut: true,
    validateInput: (name) => (name.trim() === '' ? undefined : nameFault(name, taken)),
  });
  const name = order && jobFileName(order);
  if (!name || nameFault(order, taken) !== null) return;
  const { order: pointIds } = await client.sendRequest<ChassisPoints>('framewright/chassisPoints', {
    uri: chassis.toString(),
  });
  if (pointIds.length === 0) {
    void window.showErrorMessage(
      l10n.t('No points could be read in {0}: correct it first.', workspace.asRelativePath(chassis)),
    );
    return;
  }
  const text = newJobText({
    order: order.trim(),
    chassisPath: pathFrom(jobFolder, chassisPath),
    pointIds,
    today: today(),
  });
  const uri = Uri.joinPath(root, jobFolder, name);
  // it may have come while the number was typed
  if (await exists(uri)) {
    void window.showErrorMessage(l10n.t('There is a job {0} already.', name));
    return;
  }
  const editor = await writeAndShow(uri, text);
  const first = editor.document.positionAt(Math.max(0, text.indexOf(`# ${pointIds[0]}`)));
  editor.selection = new Selection(first, first);
  editor.revealRange(new Range(first, first));
};

/** The given one, the open one, the only one, else one of a list. */
const chassisFor = async (given?: Uri | Chosen): Promise<Uri | undefined> => {
  if (given instanceof Uri) return given;
  if (given?.kind === 'entry') return Uri.parse(given.uri);
  const open = window.activeTextEditor?.document.uri;
  if (open?.path.endsWith(chassisEnding)) return open;
  const found = await workspace.findFiles(chassisPattern, undefined, 1000);
  if (found.length === 0) {
    const make = l10n.t('New Example Chassis');
    const answer = await window.showInformationMessage(
      l10n.t('A job is judged by a chassis file, and there is none here yet.'),
      make,
    );
    if (answer === make) await newExampleChassis();
    return undefined;
  }
  if (found.length === 1) return found[0];
  const picks = found.map((uri) => ({ label: workspace.asRelativePath(uri), uri }));
  picks.sort((a, b) => a.label.localeCompare(b.label, 'en'));
  return (await window.showQuickPick(picks, { title: l10n.t('Chassis file of the new job') }))?.uri;
};

const newExampleChassis = async (): Promise<void> => {
  const folder = await folderForNewFile();
  if (!folder) return;
  const uri = Uri.joinPath(folder.uri, exampleChassisPath);
  if (await exists(uri)) await window.showTextDocument(uri, { viewColumn: columnForFile() });
  else await writeAndShow(uri, exampleChassis);
};

const enterExampleReadings = async (): Promise<void> => {
  const document = (await openJob())?.document;
  const edits = document ? exampleReadingEdits(document.getText().split(/\r?\n/)) : [];
  if (!document || edits.length === 0) {
    void window.showInformationMessage(
      l10n.t('Open a new job of the example chassis first: the readings go into its empty rows.'),
    );
    return;
  }
  const edit = new WorkspaceEdit();
  for (const { line, text } of edits) edit.replace(document.uri, document.lineAt(line).range, text);
  await workspace.applyEdit(edit);
  await document.save();
};

/** In the time of the place, as people write it. */
const today = (): string => {
  const now = new Date();
  const two = (figure: number): string => String(figure).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
};
