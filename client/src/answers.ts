import type { EditChoices, EditsWithQuestion, WireEdit } from '@framewright/schemas/wire';
import {
  commands,
  type Disposable,
  l10n,
  Position,
  Range,
  type TextDocument,
  Uri,
  WorkspaceEdit,
  window,
  workspace,
} from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { filledIn, objectionTo } from './filled-in';
import { showPlace } from './show-place';

/** The command behind what needs a name or a reason: asks for it, and writes nothing where no answer is given. */
export const answers = (client: () => BaseLanguageClient | undefined): Disposable =>
  commands.registerCommand('framewright.applyWithAnswer', async (question: EditsWithQuestion) => {
    const uri = Uri.parse(question.uri, true);
    const document = await workspace.openTextDocument(uri);
    const { version } = document;
    const answer = await window.showInputBox({
      prompt: question.ask,
      ignoreFocusOut: true,
      validateInput: (typed) => objectionTo(typed, question.of),
    });
    if (!answer?.trim()) return;
    // the places were those of the text as it stood when it was asked
    const filled = question.edits.map((edit) => ({
      ...edit,
      newText: filledIn(edit.newText, question.mark, answer.trim()),
    }));
    if (!(await madeIn(document, version, filled))) return;
    if (question.thenSeals) await seal(client(), uri);
  });

/** The command behind what there are several of: a person chooses one, and it is written. */
export const choosing = (): Disposable =>
  commands.registerCommand('framewright.choose', async ({ uri, title, choices }: EditChoices) => {
    const document = await workspace.openTextDocument(Uri.parse(uri, true));
    const { version } = document;
    const picks = choices.map((choice) => ({ label: choice.title, edits: choice.edits }));
    const chosen = await window.showQuickPick(picks, { title });
    if (chosen) await madeIn(document, version, chosen.edits);
  });

/** Writes edits into a document as it was when they were worked out, and brings them to front; false, and said, where it is another by now. */
export async function madeIn(
  document: TextDocument,
  version: number,
  edits: readonly WireEdit[],
): Promise<boolean> {
  const isWritten = document.version === version && (await makeEdits(document.uri, edits));
  if (!isWritten)
    void window.showWarningMessage(l10n.t('The file was changed in the meantime: nothing was written.'));
  else await revealWritten(document.uri, edits);
  return isWritten;
}

/** What was written, with the cursor at its beginning. */
async function revealWritten(uri: Uri, edits: readonly WireEdit[]): Promise<void> {
  const [first] = [...edits].sort(
    (a, b) => a.range.start.line - b.range.start.line || a.range.start.character - b.range.start.character,
  );
  if (first === undefined) return;
  const lead = first.newText.slice(0, Math.max(0, first.newText.search(/\S/))).split(/\r\n|\n|\r/);
  const line = first.range.start.line + lead.length - 1;
  const character = lead[lead.length - 1].length + (lead.length === 1 ? first.range.start.character : 0);
  await showPlace(uri, { start: { line, character }, end: { line, character } });
}

/** The seals are over who signed, too: they are known when the name stands in the file. */
const seal = async (client: BaseLanguageClient | undefined, uri: Uri): Promise<void> => {
  const { version } = await workspace.openTextDocument(uri);
  const answer = await client?.sendRequest<{ edits: WireEdit[] }>('framewright/sealing', {
    uri: uri.toString(),
  });
  const isSame = (await workspace.openTextDocument(uri)).version === version;
  if (answer !== undefined && answer.edits.length > 0 && isSame)
    await workspace.applyEdit(editedBy(uri, answer.edits));
};

/** Edits of a file as a person's own: they can be undone. */
export const makeEdits = (uri: Uri, edits: readonly WireEdit[]): Thenable<boolean> =>
  workspace.applyEdit(editedBy(uri, edits));

export const editedBy = (uri: Uri, edits: readonly WireEdit[]): WorkspaceEdit => {
  const edit = new WorkspaceEdit();
  for (const { range, newText } of edits) {
    const place = new Range(
      new Position(range.start.line, range.start.character),
      new Position(range.end.line, range.end.character),
    );
    edit.replace(uri, place, newText);
  }
  return edit;
};
