import type { PlanAnswer, PlanLink } from '@framewright/schemas/wire';
import {
  commands,
  type Disposable,
  DocumentLink,
  EventEmitter,
  l10n,
  languages,
  Range,
  Uri,
  ViewColumn,
  window,
  workspace,
} from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type NamedFile, uriOf } from '../named-file';
import { openJob } from './open-job';

/** Lines of a plan are long, and a caution must not be cut off: this language has its lines broken (`client/package.json`). */
const scheme = 'framewright-plan';

/** *Show Pull Plan*: as text beside the job, made anew whenever it is asked for. */
export const planPages = (client: () => BaseLanguageClient | undefined): Disposable[] => {
  const changes = new EventEmitter<Uri>();
  /** Of the pages that are shown, by their address. */
  const links = new Map<string, readonly DocumentLink[]>();
  return [
    changes,
    workspace.registerTextDocumentContentProvider(scheme, {
      onDidChange: changes.event,
      async provideTextDocumentContent(page, token) {
        const running = client();
        if (!running)
          return 'The language server is not running: run "Framewright: Restart Language Server".\n';
        const question: { uri: string } = JSON.parse(page.query);
        const answer = await running.sendRequest<PlanAnswer>('framewright/plan', question, token);
        const job = Uri.parse(question.uri);
        links.set(page.toString(), 'links' in answer ? answer.links.map((link) => linkInto(job, link)) : []);
        return `${'text' in answer ? answer.text : answer.message}\n`;
      },
    }),
    languages.registerDocumentLinkProvider(
      { scheme },
      { provideDocumentLinks: ({ uri }) => [...(links.get(uri.toString()) ?? [])] },
    ),
    workspace.onDidCloseTextDocument(({ uri }) => links.delete(uri.toString())),
    commands.registerCommand('framewright.showPlan', async (named?: NamedFile, part?: string) => {
      const uri = uriOf(named) ?? (await openJob())?.document.uri;
      if (!uri) {
        void window.showInformationMessage(l10n.t('Open a job first: its pull plan is made from it.'));
        return;
      }
      const name = uri.path.slice(uri.path.lastIndexOf('/') + 1).replace(/\.readings\.yaml$/, '');
      const question = { uri: uri.toString(), ...(typeof part === 'string' ? { part } : {}) };
      const page = Uri.from({
        scheme,
        path: `/Pull plan ${name}${question.part === undefined ? '' : ` ${question.part}`}.pull-plan`,
        query: JSON.stringify(question),
      });
      changes.fire(page);
      await window.showTextDocument(page, {
        viewColumn: ViewColumn.Beside,
        preserveFocus: true,
        preview: true,
      });
    }),
  ];
};

/** A name leads to the row that it was read in last. The editor counts lines and characters of an address from 1. */
function linkInto(job: Uri, { line, start, end, row }: PlanLink): DocumentLink {
  const place = job.with({ fragment: `L${row.line + 1},${row.character + 1}` });
  const link = new DocumentLink(new Range(line, start, line, end), place);
  link.tooltip = l10n.t('Go to the newest reading');
  return link;
}
