import type { LineRange, PasteAnswer, PasteQuestion } from '@framewright/schemas/wire';
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { editedBy } from '../answers';
import { languageIds } from '../patterns';

/** How long the words on a table that stays as it is are in the status bar, ms. */
const wordsMs = 8000;

/** What pasting is told by: there since 1.97, which is newer than the oldest editor that this works in. */
interface PasteKind {
  append(...parts: string[]): PasteKind;
}
interface PasteEdit {
  additionalEdit?: vscode.WorkspaceEdit;
}
interface PasteProvider {
  provideDocumentPasteEdits(
    document: vscode.TextDocument,
    ranges: readonly vscode.Range[],
    transfer: vscode.DataTransfer,
    context: unknown,
    token: vscode.CancellationToken,
  ): Promise<PasteEdit[] | undefined>;
}
interface PasteApi {
  readonly DocumentDropOrPasteEditKind: { readonly Empty: PasteKind };
  readonly DocumentPasteEdit: new (insertText: string, title: string, kind: PasteKind) => PasteEdit;
  readonly languages: {
    registerDocumentPasteEditProvider(
      selector: vscode.DocumentSelector,
      provider: PasteProvider,
      metadata: {
        readonly providedPasteEditKinds: readonly PasteKind[];
        readonly pasteMimeTypes: readonly string[];
      },
    ): vscode.Disposable;
  };
}

const canPaste = (api: object): api is PasteApi =>
  'DocumentPasteEdit' in api && 'DocumentDropOrPasteEditKind' in api;

/** As the server reads it: the editor's own range is written as a list. */
const plain = ({ start, end }: vscode.Range): LineRange => ({
  start: { line: start.line, character: start.character },
  end: { line: end.line, character: end.character },
});

/** A block of a table that is pasted under `readings:` or `points:` becomes rows; the editor offers the plain paste beside it. */
export const pastingRows = (client: () => BaseLanguageClient | undefined): vscode.Disposable[] => {
  const api: object = vscode;
  if (!canPaste(api)) return [];
  const kind = api.DocumentDropOrPasteEditKind.Empty.append('framewright', 'rows');
  const provider: PasteProvider = {
    async provideDocumentPasteEdits(document, ranges, transfer, _context, token) {
      const text = await transfer.get('text/plain')?.asString();
      const [range, ...others] = ranges;
      if (!text || range === undefined || others.length > 0) return undefined;
      const uri = document.uri.toString();
      const question: PasteQuestion = { uri, range: plain(range), text };
      const answer = await client()?.sendRequest<PasteAnswer>('framewright/pasteRows', question, token);
      if (!answer) return undefined;
      if ('message' in answer) {
        vscode.window.setStatusBarMessage(
          vscode.l10n.t('Pasted as plain text: {0}', answer.message),
          wordsMs,
        );
        return undefined;
      }
      // all by the edit behind it, which is done and undone in one step and keeps its blanks
      const edit = new api.DocumentPasteEdit('', answer.title, kind);
      edit.additionalEdit = editedBy(document.uri, answer.edits);
      return [edit];
    },
  };
  return [
    api.languages.registerDocumentPasteEditProvider(
      languageIds.map((language) => ({ language })),
      provider,
      { providedPasteEditKinds: [kind], pasteMimeTypes: ['text/plain'] },
    ),
  ];
};
