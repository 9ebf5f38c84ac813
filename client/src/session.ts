import { commands, type ExtensionContext, type FileSystemWatcher, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { answers } from './answers';
import { answerFileRequests } from './files';
import { output } from './output';
import { namePatterns } from './patterns';
import { rulePages } from './rule-pages';

let client: BaseLanguageClient | undefined;

/** Starts the language server and registers all that stands on it; the two doors differ in `makeClient` only. */
export const startSession = async (
  context: ExtensionContext,
  makeClient: (watchers: FileSystemWatcher[]) => BaseLanguageClient,
): Promise<void> => {
  // Made once: a client that is disposed leaves the watchers that it was given.
  const watchers = namePatterns.map((pattern) => workspace.createFileSystemWatcher(pattern));
  const start = async (): Promise<void> => {
    client = makeClient(watchers);
    answerFileRequests(client);
    await client.start();
  };
  const restart = async (): Promise<void> => {
    const old = client;
    client = undefined;
    // A server that hangs must not stand in the way of its successor.
    await old?.dispose().catch((reason) => output().warn(`The old server did not stop: ${reason}`));
    await startOrTell(start);
  };
  context.subscriptions.push(
    output(),
    ...watchers,
    rulePages(() => client),
    answers(),
    commands.registerCommand('framewright.restartServer', restart),
    commands.registerCommand('framewright.showOutput', () => output().show()),
  );
  await startOrTell(start);
};

export const endSession = async (): Promise<void> => {
  const old = client;
  client = undefined;
  await old?.dispose();
};

const startOrTell = async (start: () => Promise<void>): Promise<void> => {
  try {
    await start();
  } catch (reason) {
    output().error(`The language server did not start: ${reason}`);
    void window.showErrorMessage('Framewright: the language server did not start. See the output channel.');
  }
};
