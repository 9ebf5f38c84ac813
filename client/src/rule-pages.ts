import type { RulePageAnswer } from '@framewright/schemas/wire';
import {
  commands,
  type Diagnostic,
  type Disposable,
  l10n,
  languages,
  type TextDocumentContentProvider,
  type Uri,
  window,
  workspace,
} from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';

/** A finding's rule name links to `framewright-rule:/base/moved.md`; the page comes from the server. */
export const rulePageScheme = 'framewright-rule';

/** `base/moved` of `framewright-rule:/base/moved.md`. */
const ruleOf = (uri: Uri): string => uri.path.replace(/^\//, '').replace(/\.md$/, '');

/** Shows each rule's page as a read-only document. The server knows the pages, so no copy of them is kept here. */
export const rulePages = (client: () => BaseLanguageClient | undefined): Disposable => {
  const provider: TextDocumentContentProvider = {
    async provideTextDocumentContent(uri, token) {
      const rule = ruleOf(uri);
      const running = client();
      if (!running)
        return `The language server is not running: run *Framewright: Restart Language Server*.\n`;
      const page = await running.sendRequest<RulePageAnswer>('framewright/rulePage', { rule }, token);
      return page.markdown ?? `There is no rule named \`${rule}\`.\n`;
    },
  };
  return workspace.registerTextDocumentContentProvider(rulePageScheme, provider);
};

/** *Open Rule Page*: of the finding under the cursor, or of one that is chosen among those of the open file. */
export const openRulePage = (): Disposable =>
  commands.registerCommand('framewright.openRulePage', async () => {
    const editor = window.activeTextEditor;
    const found = editor ? languages.getDiagnostics(editor.document.uri).flatMap(pageOf) : [];
    const here = found.filter(({ range }) => editor && range.contains(editor.selection.active));
    const pages = [...new Map((here.length > 0 ? here : found).map((each) => [each.label, each])).values()];
    if (pages.length === 0) {
      void window.showInformationMessage(l10n.t('There is no finding in this file, so no rule to explain.'));
      return;
    }
    const page =
      pages.length === 1 ? pages[0] : await window.showQuickPick(pages, { title: l10n.t('Rule to explain') });
    if (page) await commands.executeCommand('vscode.open', page.target);
  });

const pageOf = ({ code, message, range }: Diagnostic) =>
  typeof code === 'object' && code.target.scheme === rulePageScheme
    ? [{ label: String(code.value), description: message, target: code.target, range }]
    : [];
