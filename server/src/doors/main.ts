import { createConnection, ProposedFeatures, StreamMessageReader } from 'vscode-languageserver/node';
import { nodeFiles } from '../node/files';
import { StreamWriter } from '../node/messages';
import { unawaited } from '../workspace/unawaited';
import { startSession } from './start';

/** The door for an editor that starts a process: over standard input and output, or Node's own channel. */
export function serve(): Promise<number> {
  const isChannel = process.argv.includes('--node-ipc');
  const connection = isChannel
    ? createConnection(ProposedFeatures.all)
    : createConnection(
        ProposedFeatures.all,
        new StreamMessageReader(process.stdin),
        new StreamWriter(process.stdout),
      );
  const { strayed, isShutDown } = startSession(connection, nodeFiles());
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

// started directly by an editor as a bundle of its own, not by the command line
if (process.argv[1]?.endsWith('server.js') || process.argv[1]?.endsWith('main.cjs'))
  unawaited(serve(), () => {});
