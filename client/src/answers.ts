import { commands, type Disposable, Position, Range, Uri, WorkspaceEdit, window, workspace } from 'vscode';

/** Edits that wait for something only a person can say, such as who signs. */
interface Question {
  readonly uri: string;
  readonly ask: string;
  /** What stands in the edits where the answer belongs. */
  readonly mark: string;
  readonly edits: readonly {
    readonly range: {
      readonly start: { readonly line: number; readonly character: number };
      readonly end: { readonly line: number; readonly character: number };
    };
    readonly newText: string;
  }[];
}

/** The command behind *Sign off* and *Accept with a reason*: asks, and writes nothing where no answer is given. */
export const answers = (): Disposable =>
  commands.registerCommand('framewright.applyWithAnswer', async ({ uri, ask, mark, edits }: Question) => {
    const answer = (await window.showInputBox({ prompt: ask, ignoreFocusOut: true }))?.trim();
    if (!answer) return;
    const edit = new WorkspaceEdit();
    for (const { range, newText } of edits) {
      const place = new Range(
        new Position(range.start.line, range.start.character),
        new Position(range.end.line, range.end.character),
      );
      // a quoted text is a text to YAML whatever it holds
      edit.replace(Uri.parse(uri, true), place, newText.replaceAll(mark, JSON.stringify(answer)));
    }
    await workspace.applyEdit(edit);
  });
