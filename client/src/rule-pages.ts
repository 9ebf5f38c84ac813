import { type Disposable, type TextDocumentContentProvider, type Uri, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';

/** A finding's rule name links to `framewright-rule:/base/moved.md`; the page comes from the server. */
export const rulePageScheme = 'framewright-rule';

/** `base/moved` of `framewright-rule:/base/moved.md`. */
export const ruleOf = (uri: Uri): string => uri.path.replace(/^\//, '').replace(/\.md$/, '');

interface RulePage {
  readonly markdown: string | null;
}

/** Shows each rule's page as a read-only document. The server knows the pages, so no copy of them is kept here. */
export const rulePages = (client: () => BaseLanguageClient | undefined): Disposable => {
  const provider: TextDocumentContentProvider = {
    async provideTextDocumentContent(uri, token) {
      const rule = ruleOf(uri);
      const running = client();
      if (!running)
        return `The language server is not running: run *Framewright: Restart Language Server*.\n`;
      const page = await running.sendRequest<RulePage>('framewright/rulePage', { rule }, token);
      return page.markdown ?? `There is no rule named \`${rule}\`.\n`;
    },
  };
  return workspace.registerTextDocumentContentProvider(rulePageScheme, provider);
};
