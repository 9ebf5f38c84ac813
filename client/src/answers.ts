import type { EditsWithQuestion, WireEdit } from '@framewright/schemas/wire';
import { commands, type Disposable, Position, Range, Uri, WorkspaceEdit, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { filledIn, objectionTo } from './filled-in';

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
    const isWritten = document.version === version && (await workspace.applyEdit(edited(uri, filled)));
    if (!isWritten)
      void window.showWarningMessage('The file was changed in the meantime: nothing was written.');
    else if (question.thenSeals) await seal(client(), uri);
  });

/** The seals are over who signed, too: they are known when the name stands in the file. */
const seal = async (client: BaseLanguageClient | undefined, uri: Uri): Promise<void> => {
  const { version } = await workspace.openTextDocument(uri);
  const answer = await client?.sendRequest<{ edits: WireEdit[] }>('framewright/sealing', {
    uri: uri.toString(),
  });
  const isSame = (await workspace.openTextDocument(uri)).version === version;
  if (answer !== undefined && answer.edits.length > 0 && isSame)
    await workspace.applyEdit(edited(uri, answer.edits));
};

const edited = (uri: Uri, edits: readonly WireEdit[]): WorkspaceEdit => {
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
