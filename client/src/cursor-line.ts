import type { CursorNote } from '@framewright/schemas/wire';
import {
  type Disposable,
  TextDocumentSaveReason,
  type TextDocumentWillSaveEvent,
  type TextEditor,
  window,
  workspace,
} from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { chassisEnding, jobEnding } from './patterns';

/**
 * Tells the server the line of the cursor in the active job or chassis file, so that a row which is being typed is judged when it is complete or left. With
 * several cursors there is no such row; who saves wants to see what is wrong.
 */
export class CursorLine implements Disposable {
  private told: CursorNote | null = null;
  private readonly listening: Disposable[];

  constructor(private readonly client: () => BaseLanguageClient | undefined) {
    this.listening = [
      window.onDidChangeActiveTextEditor((editor) => this.follow(editor)),
      window.onDidChangeTextEditorSelection(({ textEditor }) => {
        if (textEditor === window.activeTextEditor) this.follow(textEditor);
      }),
      workspace.onWillSaveTextDocument((save) => this.settle(save)),
    ];
  }

  /** To a server that has started and knows nothing. */
  tellAnew(): void {
    this.told = null;
    this.follow(window.activeTextEditor);
  }

  dispose(): void {
    for (const each of this.listening) each.dispose();
  }

  private follow(editor: TextEditor | undefined): void {
    const { told } = this;
    const now = editor && noteOf(editor);
    if (told && told.line !== null && told.uri !== now?.uri) this.tell({ uri: told.uri, line: null });
    if (now && (told?.uri !== now.uri || told.line !== now.line)) this.tell(now);
  }

  private settle({ document, reason }: TextDocumentWillSaveEvent): void {
    const { activeTextEditor: editor } = window;
    if (editor?.document !== document || reason === TextDocumentSaveReason.AfterDelay) return;
    const note = noteOf(editor);
    if (note === undefined) return;
    this.tell({ uri: note.uri, line: null });
    this.tell(note);
  }

  private tell(note: CursorNote): void {
    const running = this.client();
    if (!running?.isRunning()) return;
    this.told = note;
    void running.sendNotification('framewright/cursor', note);
  }
}

const noteOf = ({ document, selections }: TextEditor): CursorNote | undefined => {
  const { languageId, uri } = document;
  const hasRows =
    /^framewright-(readings|chassis)$/.test(languageId) ||
    [jobEnding, chassisEnding].some((ending) => uri.path.endsWith(ending));
  if (!hasRows) return undefined;
  return { uri: uri.toString(), line: selections.length === 1 ? selections[0].active.line : null };
};
