import { createConnection, ProposedFeatures, StreamMessageReader } from 'vscode-languageserver/node';
import { nodeFiles } from '../node/files';
import { StreamWriter } from '../node/messages';
import { startSession } from './start';

/** The door for an editor that starts a process: over standard input and output, or Node's own channel. */
export function serve(): Promise<number> {
  const connection = process.argv.includes('--node-ipc')
    ? createConnection(ProposedFeatures.all)
    : createConnection(
        ProposedFeatures.all,
        new StreamMessageReader(process.stdin),
        new StreamWriter(process.stdout),
      );
  startSession(connection, nodeFiles());
  // the connection ends the process on `exit`, or when the editor goes away
  return new Promise(() => {});
}

// started directly by an editor as a bundle of its own, not by the command line
if (process.argv[1]?.endsWith('server.js') || process.argv[1]?.endsWith('main.cjs')) void serve();
