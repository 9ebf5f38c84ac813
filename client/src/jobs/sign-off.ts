import type { OutsidePlace, StandingAnswer } from '@framewright/schemas/wire';
import { commands, type Disposable, l10n, type Uri, window } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { makeEdits } from '../answers';
import { type NamedFile, uriOf } from '../named-file';
import { showPlace } from '../show-place';
import { openJob } from './open-job';

/** *Sign Off the Dimensions…*: asks who signs, or lists what stands against it, with a way to each. */
export const signOffCommand = (client: () => BaseLanguageClient | undefined): Disposable =>
  commands.registerCommand('framewright.signOff', async (named?: NamedFile) => {
    const running = client();
    const uri = uriOf(named) ?? (await openJob())?.document.uri;
    if (!running || !uri) {
      void window.showInformationMessage(l10n.t('Open a job first: its dimensions are signed off.'));
      return;
    }
    const standing = await running.sendRequest<StandingAnswer | null>('framewright/standing', {
      uri: uri.toString(),
    });
    if (standing === null) void window.showInformationMessage(l10n.t('This file is not a job.'));
    else if (standing.signature?.ask)
      await commands.executeCommand('framewright.applyWithAnswer', standing.signature);
    else await tell(uri, standing);
  });

async function tell(uri: Uri, { isSigned, against, signature }: StandingAnswer): Promise<void> {
  if (signature?.ask === null) {
    const accept = l10n.t('Accept Them With Reasons');
    const [why] = against;
    const answer = await window.showInformationMessage(
      l10n.t(
        '{0} undecided inside the limit, such as {1}. They can be accepted, each with a reason.',
        against.length,
        why.words,
      ),
      accept,
      l10n.t('List Them'),
    );
    if (answer === accept) await makeEdits(uri, signature.edits);
    else if (answer !== undefined) await choose(uri, against, l10n.t('Undecided'));
    return;
  }
  if (against.length > 0) {
    const things = against.length === 1 ? '1 thing stands' : `${against.length} things stand`;
    await choose(
      uri,
      against,
      isSigned ? `Signed, but ${things} against it` : `${things} against the sign-off`,
    );
  } else
    void window.showInformationMessage(
      isSigned
        ? l10n.t('The dimensions are signed off, and nothing stands against it.')
        : l10n.t('This job cannot be signed as its text stands.'),
    );
}

/** Lists what there is to see; where one is chosen, goes there. */
async function choose(uri: Uri, places: readonly OutsidePlace[], title: string): Promise<void> {
  const picks = places.map((place) => ({
    label: place.words,
    detail: `line ${place.range.start.line + 1}`,
    place,
  }));
  const chosen = await window.showQuickPick(picks, {
    title,
    placeHolder: l10n.t('Choose one to go there'),
    // the command's own list closes at the same time, and would take the focus with it
    ignoreFocusOut: true,
  });
  if (chosen) await showPlace(uri, chosen.place.range);
}
