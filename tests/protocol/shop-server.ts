/** The language server with a folder as its workspace, and all that it told in its order. */
import { readFileSync } from 'node:fs';
import type { Diagnostic, MessageConnection, PublishDiagnosticsParams } from 'vscode-languageserver-protocol';
import { ServerProcess } from '../server-process';
import { cliPath, uriOf } from './client';
import { Waiting } from './waiting';

const limitMs = 60_000;

export interface Told {
  readonly method: string;
  // biome-ignore lint/suspicious/noExplicitAny: as it came over the wire
  readonly params: any;
}

/** Files that the client has, and the server no disk for. */
export interface ClientFiles {
  readonly uris: readonly string[];
  read(uri: string): Promise<string | null>;
}

export class ShopServer {
  readonly told: Told[] = [];
  readonly connection: MessageConnection;
  private readonly waiting = new Waiting();

  private constructor(
    private readonly server: ServerProcess,
    public configuration: object,
    files: ClientFiles | null,
  ) {
    server.process.stderr.pipe(process.stderr);
    const { connection } = server;
    this.connection = connection;
    connection.onNotification((method, params) => this.heard(method, params));
    connection.onUnhandledProgress(({ token, value }) => this.heard('$/progress', { token, value }));
    connection.onRequest((method, params) => {
      this.heard(method, params);
      const { items } = params as { items?: unknown[] };
      return method === 'workspace/configuration' ? items?.map(() => this.configuration) : null;
    });
    if (files) {
      connection.onRequest('framewright/listFiles', () => ({ uris: files.uris }));
      connection.onRequest('framewright/readFile', async ({ uri }: { uri: string }) => ({
        text: await files.read(uri),
      }));
    }
    connection.listen();
  }

  static async started(
    folder: string,
    configuration: object = {},
    files: ClientFiles | null = null,
  ): Promise<ShopServer> {
    const server = new ShopServer(new ServerProcess([cliPath, 'lsp', '--stdio']), configuration, files);
    await server.connection.sendRequest('initialize', {
      processId: process.pid,
      rootUri: null,
      workspaceFolders: [{ uri: uriOf(folder), name: 'shop' }],
      initializationOptions: { readFilesThroughClient: files !== null },
      capabilities: {
        window: { workDoneProgress: true },
        workspace: {
          workspaceFolders: true,
          configuration: true,
          didChangeWatchedFiles: { dynamicRegistration: true },
        },
        textDocument: { publishDiagnostics: { relatedInformation: true, versionSupport: true } },
      },
    });
    await server.connection.sendNotification('initialized', {});
    return server;
  }

  private heard(method: string, params: unknown): void {
    this.told.push({ method, params });
    this.waiting.look();
  }

  /** When what was told fits; an error with the last of it when it never does. */
  until(fits: () => boolean, what: string): Promise<void> {
    return this.waiting.until(fits, limitMs, () => {
      const last = JSON.stringify(this.told.slice(-3)).slice(0, 2000);
      return `never told: ${what}; the last was ${last}`;
    });
  }

  /** When every file of the workspace was looked at. */
  async checked(): Promise<void> {
    type State = { checking: boolean };
    const { checking } = await this.connection.sendRequest<State>('framewright/jobs', {});
    if (!checking) return;
    await this.until(
      () =>
        this.told.some(
          ({ method, params }) => method === 'framewright/jobsChanged' && params.checking === false,
        ),
      'the end of the check',
    );
  }

  /** From some place of the record on: what was told of files' findings. */
  published(from = 0): PublishDiagnosticsParams[] {
    const all = this.told.slice(from).filter(({ method }) => method === 'textDocument/publishDiagnostics');
    return all.map(({ params }) => params);
  }

  /** The newest findings of a file; undefined where none were ever told. */
  findings(file: string): Diagnostic[] | undefined {
    return this.published().findLast(({ uri }) => uri === uriOf(file))?.diagnostics;
  }

  /** Kinds of the progress that was shown, each run of reports as one. */
  progress(): string[] {
    const kinds = this.told.flatMap(({ method, params }) =>
      method === '$/progress' ? [params.value.kind] : [],
    );
    return kinds.filter((kind, i) => kind !== 'report' || kinds[i - 1] !== 'report');
  }

  async open(file: string, text = readFileSync(file, 'utf8')): Promise<string> {
    const languageId = file.endsWith('.chassis.yaml') ? 'framewright-chassis' : 'framewright-readings';
    const textDocument = { uri: uriOf(file), languageId, version: 1, text };
    await this.connection.sendNotification('textDocument/didOpen', { textDocument });
    await this.until(
      () => this.published().some(({ uri, version }) => uri === uriOf(file) && version === 1),
      file,
    );
    return text;
  }

  replace(file: string, version: number, text: string): Promise<void> {
    const params = { textDocument: { uri: uriOf(file), version }, contentChanges: [{ text }] };
    return this.connection.sendNotification('textDocument/didChange', params);
  }

  close(file: string): Promise<void> {
    return this.connection.sendNotification('textDocument/didClose', { textDocument: { uri: uriOf(file) } });
  }

  /** As an editor tells of files on the disk. 1: created, 2: changed, 3: deleted. */
  changed(files: readonly string[], type: 1 | 2 | 3): Promise<void> {
    const changes = files.map((file) => ({ uri: uriOf(file), type }));
    return this.connection.sendNotification('workspace/didChangeWatchedFiles', { changes });
  }

  async end(): Promise<number | null> {
    await this.connection.sendRequest('shutdown');
    await this.connection.sendNotification('exit');
    return this.server.ended;
  }
}
