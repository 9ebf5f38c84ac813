import type { LayoutAnswer, TableAnswer, TableQuestion, TableUnderstood } from '@framewright/schemas/wire';
import { l10n, QuickPickItemKind, Uri, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { makeEdits } from '../answers';
import { layoutNameFor, type ReviewChoice, reviewLines } from './review-lines';
import { nameOf, tableBytes } from './table-file';

/** A table that a person agreed to. */
interface Agreed {
  readonly answer: TableUnderstood;
  readonly layout: string | null;
  /** The layout that was guessed is to stand in the settings. */
  readonly keeps: boolean;
}

type Into = Pick<TableQuestion, 'uri' | 'begun'>;

/** Shows how a table was understood until a person agrees; undefined where nothing is to be written. Why a table is not read is said. */
export async function agreedTable(
  client: BaseLanguageClient,
  table: Uri,
  into: Into,
): Promise<Agreed | undefined> {
  const name = nameOf(table);
  const read = await tableBytes(table);
  if ('message' in read) return refuse(name, read.message);
  let layout: string | null = null;
  let byPlace = false;
  for (;;) {
    const question: TableQuestion = { ...into, bytes: read.bytes, layout, byPlace };
    const answer = await client.sendRequest<TableAnswer>('framewright/tableInto', question);
    if ('message' in answer) return refuse(name, answer.message);
    const choice: ReviewChoice = await chosenFor(name, answer, byPlace);
    if (choice.do === 'nothing') return undefined;
    if (choice.do === 'read anew') {
      layout = choice.layout;
      byPlace = choice.byPlace;
    } else return { answer, layout, keeps: choice.do === 'insert and keep' };
  }
}

async function chosenFor(name: string, answer: TableUnderstood, byPlace: boolean): Promise<ReviewChoice> {
  const picks = reviewLines(answer, byPlace).map((line) => ({
    ...line,
    ...(line.isHeading ? { kind: QuickPickItemKind.Separator } : {}),
  }));
  const chosen = await window.showQuickPick(picks, {
    title: l10n.t('Table {0}', name),
    placeHolder:
      answer.refusedCount === 0
        ? l10n.t('Is it understood as it is meant?')
        : l10n.t('Not every row was understood'),
    ignoreFocusOut: true,
  });
  return chosen?.choice ?? { do: 'nothing' };
}

const refuse = (name: string, message: string): undefined => {
  void window.showErrorMessage(l10n.t('{0}: {1}. Nothing was written.', name, message));
};

/** Asks for a name and writes the guessed layout into the settings. */
export async function keepLayout(
  client: BaseLanguageClient,
  uri: Uri,
  table: Uri,
  { guessed }: TableUnderstood,
): Promise<void> {
  const name = await window.showInputBox({
    title: l10n.t('Keep this layout'),
    prompt: l10n.t('Its name under tables: of .framewright.yaml'),
    value: layoutNameFor(nameOf(table)),
    ignoreFocusOut: true,
  });
  if (!name?.trim()) return;
  const answer = await client.sendRequest<LayoutAnswer>('framewright/keepLayout', {
    uri: uri.toString(),
    name: name.trim(),
    lines: guessed,
  });
  if ('message' in answer) {
    void window.showWarningMessage(l10n.t('The layout was not kept: {0}.', answer.message));
    return;
  }
  const settings = Uri.parse(answer.uri, true);
  if (answer.text !== null) {
    await workspace.fs.writeFile(settings, new TextEncoder().encode(answer.text));
    return;
  }
  const document = await workspace.openTextDocument(settings);
  // what somebody is typing there is saved by that person
  const wasSaved = !document.isDirty;
  if ((await makeEdits(settings, answer.edits)) && wasSaved) await document.save();
}
