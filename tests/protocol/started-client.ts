import { ServerProcess } from '../server-process';
import { cliPath, ProtocolClient } from './client';

/** A client of the language server as any editor starts it, from the command line. */
export class StartedClient extends ProtocolClient {
  /** What the server said beside the protocol. */
  errors = '';

  constructor(private readonly server = new ServerProcess([cliPath, 'lsp', '--stdio'])) {
    super(server.connection);
    server.process.stderr.on('data', (data) => {
      this.errors += data;
    });
  }

  /** Ends it as the protocol wants it; its exit code. */
  async end(): Promise<number | null> {
    await this.server.connection.sendRequest('shutdown');
    await this.server.connection.sendNotification('exit');
    return this.server.ended;
  }

  kill(): Promise<void> {
    return this.server.kill();
  }
}
