import { createRequire } from 'node:module';
import { createConnection, ProposedFeatures, StreamMessageReader } from 'vscode-languageserver/node';
import { nodeFiles } from '../node/files';
import { StreamWriter } from '../node/messages';
import { lifecycle } from '../protocol/lifecycle';
import { messagesHanded } from '../protocol/next-turn';
import { unawaited } from '../workspace/unawaited';
import { startSession } from './start';

/** What lies beside this bundle, loaded when it is asked for. */
const beside: (name: string) => typeof import('./spreadsheet') = createRequire(`${import.meta.dirname}/`);

/** The door for an editor that starts a process: over standard input and output, or Node's own channel. */
export function serve(): Promise<number> {
  const isChannel = process.argv.includes('--node-ipc');
  const connection = isChannel
    ? createConnection(ProposedFeatures.all, lifecycle())
    : createConnection(ProposedFeatures.all, streamReader(), new StreamWriter(process.stdout), lifecycle());
  const { strayed, isShutDown } = startSession(connection, nodeFiles(), async (bytes) =>
    beside('./spreadsheet.cjs').spreadsheetRead(bytes),
  );
  process.on('uncaughtException', strayed);
  process.on('unhandledRejection', strayed);
  // an editor that goes away, in the middle of whatever, leaves nobody to talk to
  const leave = (): never => process.exit(isShutDown() ? 0 : 1);
  if (isChannel) process.on('disconnect', leave);
  else {
    process.stdin.on('end', leave).on('close', leave).on('error', leave);
    process.stdout.on('error', leave).on('close', leave);
  }
  // the connection ends the process on `exit`
  return new Promise(() => {});
}

/** What follows a broken header cannot be told apart from one: the session is over once what came before is on its way. */
function streamReader(): StreamMessageReader {
  const reader = new StreamMessageReader(process.stdin);
  const first = reader.onError((error) => {
    first.dispose();
    process.stdin.pause();
    process.stderr.write(`framewright: what the editor sent cannot be read: ${error.message}\n`);
    const leave = (): never => process.exit(1);
    unawaited(messagesHanded().then(leave), leave);
  });
  return reader;
}

// started directly by an editor as a bundle of its own, not by the command line
if (process.argv[1]?.endsWith('main.cjs')) unawaited(serve(), () => {});
