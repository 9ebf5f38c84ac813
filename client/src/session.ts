import {
  commands,
  type Disposable,
  type ExtensionContext,
  type FileSystemWatcher,
  l10n,
  window,
  workspace,
} from 'vscode';
import type { BaseLanguageClient, Middleware } from 'vscode-languageclient';
import { answers, choosing } from './answers';
import { CursorLine } from './cursor-line';
import { DrawingView } from './drawing/drawing-view';
import { recordCommand } from './drawing/record';
import { answerFileRequests } from './files';
import { RowHints } from './hints/row-hints';
import { jobCommands } from './jobs/job-commands';
import { JobList } from './jobs/job-list';
import { jobViews, openJobCommand } from './jobs/jobs-view';
import { planPages } from './jobs/plan-page';
import { referencePointsCommand } from './jobs/reference-points';
import { reopenCommand } from './jobs/reopen';
import { signOffCommand } from './jobs/sign-off';
import { output } from './output';
import { namePatterns } from './patterns';
import { pointCommands } from './point-commands';
import { openRulePage, rulePages } from './rule-pages';
import { showingCommands } from './showing';
import { status } from './status';
import { tableCommands } from './tables/tables';

let client: BaseLanguageClient | undefined;
const running = (): BaseLanguageClient | undefined => client;

/** Starts the language server and registers all that stands on it; the two doors differ in `makeClient` only. */
export const startSession = async (
  context: ExtensionContext,
  makeClient: (watchers: FileSystemWatcher[], middleware: Middleware) => BaseLanguageClient,
): Promise<void> => {
  // Made once: a client that is disposed leaves the watchers that it was given.
  const watchers = namePatterns.map((pattern) => workspace.createFileSystemWatcher(pattern));
  const jobs = new JobList();
  const drawing = new DrawingView(context, running);
  const hints = new RowHints();
  const cursor = new CursorLine(running);
  const start = async (): Promise<void> => {
    const own = makeClient(watchers, hints.middleware);
    client = own;
    answerFileRequests(own);
    drawing.listenTo(own);
    jobs.listenTo(own);
    // also after a server that broke off was started again by the client itself: the new one knows nothing of what was asked
    own.onDidChangeState(() => {
      if (!own.isRunning()) return;
      drawing.askAnew();
      cursor.tellAnew();
      void jobs.ask(own);
    });
    await own.start();
  };
  const startAnew = async (): Promise<void> => {
    const old = client;
    client = undefined;
    // A server that hangs must not stand in the way of its successor.
    await old?.dispose().catch((reason) => output().warn(`The old server did not stop: ${reason}`));
    await startOrTell(start);
  };
  // one after the other: of two servers one would be left over
  let turn = Promise.resolve();
  const restart = (): Promise<void> => {
    turn = turn.then(startAnew);
    return turn;
  };
  context.subscriptions.push(
    output(),
    ...watchers,
    jobs,
    drawing,
    hints,
    cursor,
    ...commandsAndViews(jobs),
    commands.registerCommand('framewright.restartServer', restart),
    commands.registerCommand('framewright.showOutput', () => output().show()),
  );
  await startOrTell(start);
};

/** What a person can ask for and look at. A new one is a file and a line here. */
const commandsAndViews = (jobs: JobList): Disposable[] => [
  rulePages(running),
  openRulePage(),
  answers(running),
  ...jobViews(jobs, running),
  openJobCommand(),
  ...status(jobs),
  ...pointCommands(running),
  ...jobCommands(running),
  reopenCommand(),
  signOffCommand(running),
  referencePointsCommand(running),
  choosing(),
  ...planPages(running),
  ...showingCommands(running),
  recordCommand(running),
  ...tableCommands(running),
  commands.registerCommand('framewright.checkWorkspace', () =>
    client?.sendNotification('framewright/checkWorkspace', {}),
  ),
];

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
    void window.showErrorMessage(
      l10n.t('Framewright: the language server did not start. See the output channel.'),
    );
  }
};
