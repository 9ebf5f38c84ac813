import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process';
import {
  createMessageConnection,
  type MessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver-protocol/node';

/** A language server in a process of its own, spoken to over its standard streams. Who holds it listens, and reads its errors. */
export class ServerProcess {
  readonly process: ChildProcessWithoutNullStreams;
  readonly connection: MessageConnection;
  /** Its exit code. */
  readonly ended: Promise<number | null>;

  /** @param args of Node, its script first */
  constructor(args: readonly string[], cwd?: string, node = process.execPath) {
    this.process = spawn(node, args, { cwd });
    this.ended = new Promise((resolve) => this.process.once('exit', resolve));
    const reader = new StreamMessageReader(this.process.stdout);
    this.connection = createMessageConnection(reader, new StreamMessageWriter(this.process.stdin));
  }

  /** Ends it without a word of the protocol. */
  async kill(): Promise<void> {
    this.connection.dispose();
    this.process.kill();
    await this.ended;
  }
}
