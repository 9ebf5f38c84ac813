import type { ReferencePointsAnswer } from '@framewright/schemas/wire';
import { commands, type Disposable, l10n, QuickPickItemKind, Uri, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { madeIn } from '../answers';
import { type NamedFile, uriOf } from '../named-file';
import { openJob } from './open-job';
import { referenceLines } from './reference-lines';

/** *Make Reference Points from This Job…*: shows what the car gives its chassis file, and writes it where a person agrees. */
export const referencePointsCommand = (client: () => BaseLanguageClient | undefined): Disposable =>
  commands.registerCommand('framewright.makeReferences', async (named?: NamedFile) => {
    const running = client();
    const uri = uriOf(named) ?? (await openJob())?.document.uri;
    if (!running || !uri) {
      void window.showInformationMessage(l10n.t('Open a job first: its car gives the points.'));
      return;
    }
    const answer = await running.sendRequest<ReferencePointsAnswer>('framewright/referencePoints', {
      uri: uri.toString(),
    });
    if ('message' in answer) {
      void window.showWarningMessage(l10n.t('This job gives no reference points: {0}.', answer.message));
      return;
    }
    const chassis = Uri.parse(answer.uri, true);
    const document = await workspace.openTextDocument(chassis);
    const version = answer.version ?? document.version;
    const picks = referenceLines(answer, chassis.path.split('/').at(-1) ?? '').map((line) => ({
      ...line,
      ...(line.isHeading ? { kind: QuickPickItemKind.Separator } : {}),
    }));
    const chosen = await window.showQuickPick(picks, {
      title: l10n.t('Reference points from this job'),
      placeHolder:
        answer.given === 0
          ? l10n.t('Nothing is written')
          : l10n.t('Is the car sound where these points are?'),
      ignoreFocusOut: true,
    });
    if (chosen?.writes) await madeIn(document, version, answer.edits);
  });
