import type { EditsWithQuestion } from '@framewright/schemas/wire';
import { commands, type Disposable, Position, Range, Uri, WorkspaceEdit, window, workspace } from 'vscode';
import { filledIn, objectionTo } from './filled-in';

/** The command behind what needs a name or a reason: asks for it, and writes nothing where no answer is given. */
export const answers = (): Disposable =>
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
    const isWritten =
      document.version === version && (await workspace.applyEdit(edited(uri, question, answer)));
    if (!isWritten)
      void window.showWarningMessage('The file was changed in the meantime: nothing was written.');
  });

const edited = (uri: Uri, { mark, edits }: EditsWithQuestion, answer: string): WorkspaceEdit => {
  const edit = new WorkspaceEdit();
  for (const { range, newText } of edits) {
    const place = new Range(
      new Position(range.start.line, range.start.character),
      new Position(range.end.line, range.end.character),
    );
    edit.replace(uri, place, filledIn(newText, mark, answer.trim()));
  }
  return edit;
};
