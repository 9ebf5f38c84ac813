/** The language server with a folder as its workspace, and all that it told in its order. */
import { type ChildProcess, spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import {
  createMessageConnection,
  type Diagnostic,
  type MessageConnection,
  type PublishDiagnosticsParams,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver-protocol/node';
import { cliPath, uriOf } from './client';

const limitMs = 60_000;

export interface Told {
  readonly method: string;
  // biome-ignore lint/suspicious/noExplicitAny: as it came over the wire
  readonly params: any;
}

export class ShopServer {
  readonly told: Told[] = [];
  configuration: object = {};
  private readonly waiting = new Set<() => void>();

  private constructor(
    private readonly process: ChildProcess,
    readonly connection: MessageConnection,
  ) {
    connection.onNotification((method, params) => this.heard(method, params));
    connection.onUnhandledProgress(({ token, value }) => this.heard('$/progress', { token, value }));
    connection.onRequest((method, params) => {
      this.heard(method, params);
      const { items } = params as { items?: unknown[] };
      return method === 'workspace/configuration' ? items?.map(() => this.configuration) : null;
    });
    connection.listen();
  }

  static async started(folder: string, configuration: object = {}): Promise<ShopServer> {
    const child = spawn(process.execPath, [cliPath, 'lsp', '--stdio']);
    child.stderr.pipe(process.stderr);
    const reader = new StreamMessageReader(child.stdout);
    const server = new ShopServer(
      child,
      createMessageConnection(reader, new StreamMessageWriter(child.stdin)),
    );
    server.configuration = configuration;
    await server.connection.sendRequest('initialize', {
      processId: process.pid,
      rootUri: null,
      workspaceFolders: [{ uri: uriOf(folder), name: 'shop' }],
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
    for (const look of this.waiting) look();
  }

  /** When what was told fits; an error with the last of it when it never does. */
  until(fits: () => boolean, what: string): Promise<void> {
    return new Promise((resolve, reject) => {
      const end = (act: () => void): void => {
        clearTimeout(timer);
        this.waiting.delete(look);
        act();
      };
      const look = (): void => {
        if (fits()) end(resolve);
      };
      const timer = setTimeout(() => {
        const last = JSON.stringify(this.told.slice(-3)).slice(0, 2000);
        end(() => reject(new Error(`never told: ${what}; the last was ${last}`)));
      }, limitMs);
      this.waiting.add(look);
      look();
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
    const gone = new Promise<number | null>((resolve) => this.process.once('exit', resolve));
    await this.connection.sendRequest('shutdown');
    await this.connection.sendNotification('exit');
    return gone;
  }
}
