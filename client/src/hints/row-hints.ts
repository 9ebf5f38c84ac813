import {
  type DecorationOptions,
  type Disposable,
  type InlayHint,
  MarkdownString,
  Range,
  type TextDocument,
  type TextEditor,
  ThemeColor,
  window,
  workspace,
} from 'vscode';
import type { InlayHintsMiddleware } from 'vscode-languageclient';
import { indents, lookOf, type RowHint } from './hint-looks';

/**
 * The server's inlay hints, drawn behind the rows in columns and with weight, which an editor's own inlay hints cannot have. When and for
 * which rows they are asked for stays with the editor; where its user wants hints only while a key is held, they stay its own.
 */
export class RowHints implements Disposable {
  private readonly type = window.createTextEditorDecorationType({});
  /** Of each document as it stood, by line. */
  private readonly shown = new Map<string, { version: number; byLine: Map<number, Shown> }>();
  private readonly listening: Disposable[];

  constructor() {
    this.listening = [
      workspace.onDidChangeConfiguration((change) => {
        if (change.affectsConfiguration('editor.inlayHints')) this.clear();
      }),
      workspace.onDidCloseTextDocument(({ uri }) => this.shown.delete(uri.toString())),
    ];
  }

  readonly middleware: InlayHintsMiddleware = {
    provideInlayHints: async (document, viewPort, token, next) => {
      const hints = await next(document, viewPort, token);
      if (!isDrawn(document) || token.isCancellationRequested) return hints;
      this.take(document, viewPort, hints ?? []);
      return [];
    },
  };

  dispose(): void {
    this.type.dispose();
    for (const each of this.listening) each.dispose();
  }

  private take(document: TextDocument, { start, end }: Range, hints: readonly InlayHint[]): void {
    const name = document.uri.toString();
    const before = this.shown.get(name);
    const { version } = document;
    // what was known of another text is known of none of its rows
    const byLine = before?.version === version ? before.byLine : new Map<number, Shown>();
    for (const line of byLine.keys()) if (line >= start.line && line <= end.line) byLine.delete(line);
    for (const hint of hints) byLine.set(hint.position.line, shownOf(hint));
    this.shown.set(name, { version, byLine });
    const options = optionsOf([...byLine.values()]);
    for (const editor of editorsOf(name)) editor.setDecorations(this.type, options);
  }

  private clear(): void {
    for (const name of this.shown.keys())
      for (const editor of editorsOf(name)) editor.setDecorations(this.type, []);
    this.shown.clear();
  }
}

interface Shown extends RowHint {
  readonly tooltip: string | undefined;
}

const editorsOf = (name: string): readonly TextEditor[] =>
  window.visibleTextEditors.filter(({ document }) => document.uri.toString() === name);

const isDrawn = (document: TextDocument): boolean =>
  workspace.getConfiguration('editor', document).get('inlayHints.enabled') === 'on';

const shownOf = (hint: InlayHint & { data?: unknown }): Shown => ({
  line: hint.position.line,
  character: hint.position.character,
  text: typeof hint.label === 'string' ? hint.label : hint.label.map(({ value }) => value).join(''),
  kind: hint.data,
  tooltip: typeof hint.tooltip === 'string' ? hint.tooltip : hint.tooltip?.value,
});

function optionsOf(hints: readonly Shown[]): DecorationOptions[] {
  const blanks = indents(hints);
  return hints.map(({ line, character, text, kind, tooltip }, i) => {
    const { weight, colour } = lookOf(kind);
    return {
      range: new Range(line, character, line, character),
      ...(tooltip === undefined ? {} : { hoverMessage: new MarkdownString().appendText(tooltip) }),
      renderOptions: {
        after: {
          contentText: `${'\u00A0'.repeat(blanks[i] + 2)}${text}`,
          color: new ThemeColor(colour),
          fontWeight: weight,
        },
      },
    };
  });
}
