import { createConnection, ProposedFeatures, StreamMessageReader } from 'vscode-languageserver/node';
import { nodeFiles } from '../node/files';
import { StreamWriter } from '../node/messages';
import { lifecycle } from '../protocol/lifecycle';
import { messagesHanded } from '../protocol/soon';
import { startSession } from './start';

/** The door for an editor that starts a process: over standard input and output, or Node's own channel. */
export function serve(): Promise<number> {
  const connection = process.argv.includes('--node-ipc')
    ? createConnection(ProposedFeatures.all, lifecycle())
    : createConnection(ProposedFeatures.all, streamReader(), new StreamWriter(process.stdout), lifecycle());
  startSession(connection, nodeFiles());
  // the connection ends the process on `exit`, or when the editor goes away
  return new Promise(() => {});
}

/** What follows a broken header cannot be told apart from one: the session is over once what came before is on its way. */
function streamReader(): StreamMessageReader {
  const reader = new StreamMessageReader(process.stdin);
  const first = reader.onError((error) => {
    first.dispose();
    process.stdin.pause();
    process.stderr.write(`framewright: what the editor sent cannot be read: ${error.message}\n`);
    void messagesHanded().then(() => process.exit(1));
  });
  return reader;
}

// started directly by an editor as a bundle of its own, not by the command line
if (process.argv[1]?.endsWith('server.js') || process.argv[1]?.endsWith('main.cjs')) void serve();
