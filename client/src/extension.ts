import type { ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { checkTasks } from './check-tasks';
import { clientOptions } from './client-options';
import { endSession, startSession } from './session';

/** The door for a desktop or remote editor: the server is a Node process of its own. */
export const activate = (context: ExtensionContext): Promise<void> => {
  context.subscriptions.push(checkTasks(context));
  return startSession(context, (watchers, middleware) => {
    const module = context.asAbsolutePath('dist/command/dist/main.cjs');
    const server = { module, transport: TransportKind.ipc };
    const debug = { ...server, options: { execArgv: ['--nolazy', '--inspect=6009'] } };
    const options = clientOptions(watchers, 'virtual', middleware);
    return new LanguageClient('framewright', 'Framewright', { run: server, debug }, options);
  });
};

export const deactivate = endSession;
