import { type CodeAction, commands, type Disposable, l10n, window } from 'vscode';
import { openJob } from './open-job';
import { reopenTitle, signOffLine } from './reopen-words';

/** *Reopen Job*: what the light bulb offers on the sign-off, for whoever does not stand there. */
export const reopenCommand = (): Disposable =>
  commands.registerCommand('framewright.reopenJob', async () => {
    const document = (await openJob())?.document;
    if (!document) return;
    const line = signOffLine(document.getText().split(/\r\n|\r|\n/));
    if (line === null) {
      void window.showInformationMessage(l10n.t('This job is not signed: there is nothing to reopen.'));
      return;
    }
    const offered = await commands.executeCommand<CodeAction[]>(
      'vscode.executeCodeActionProvider',
      document.uri,
      document.lineAt(line).range,
      'refactor.rewrite',
    );
    const command = offered.find(({ title }) => title === reopenTitle)?.command;
    if (command) await commands.executeCommand(command.command, ...(command.arguments ?? []));
    else
      void window.showWarningMessage(
        l10n.t(
          'The sign-off cannot be taken out while the file has errors or cannot be judged: see its findings.',
        ),
      );
  });
