import type { PlanAnswer } from '@framewright/schemas/wire';
import { commands, type Disposable, EventEmitter, Uri, ViewColumn, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type NamedFile, uriOf } from '../named-file';
import { openJob } from './open-job';

/** Lines of a plan are long, and a caution must not be cut off: this language has its lines broken (`client/package.json`). */
const scheme = 'framewright-plan';

/** *Show Pull Plan*: as text beside the job, made anew whenever it is asked for. */
export const planPages = (client: () => BaseLanguageClient | undefined): Disposable[] => {
  const changes = new EventEmitter<Uri>();
  return [
    changes,
    workspace.registerTextDocumentContentProvider(scheme, {
      onDidChange: changes.event,
      async provideTextDocumentContent({ query }, token) {
        const running = client();
        if (!running)
          return 'The language server is not running: run "Framewright: Restart Language Server".\n';
        const answer = await running.sendRequest<PlanAnswer>('framewright/plan', JSON.parse(query), token);
        return `${'text' in answer ? answer.text : answer.message}\n`;
      },
    }),
    commands.registerCommand('framewright.showPlan', async (named?: NamedFile, part?: string) => {
      const uri = uriOf(named) ?? (await openJob())?.document.uri;
      if (!uri) {
        void window.showInformationMessage('Open a job first: its pull plan is made from it.');
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
