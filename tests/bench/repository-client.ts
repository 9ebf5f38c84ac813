import { readFileSync } from 'node:fs';
import { performance } from 'node:perf_hooks';
import { pathToFileURL } from 'node:url';
import type {
  MessageConnection,
  ProgressToken,
  PublishDiagnosticsParams,
} from 'vscode-languageserver-protocol/node';
import { ServerProcess } from '../server-process';
import { commandLine } from './folders';
import { memoryMb, workedMs } from './process-figures';
import { changeOf, type Splice, spliced } from './splice';

const limitMs = 300_000;

/** Our server with a whole repository as its workspace. */
export class RepositoryClient {
  private readonly texts = new Map<string, { text: string; version: number }>();
  private readonly listeners = new Set<(params: PublishDiagnosticsParams) => void>();
  private ended: () => void = () => {};
  /** When the check of all files has come to its end. */
  readonly checked = new Promise<void>((resolve) => {
    this.ended = resolve;
  });
  isChecked = false;
  /** Files of which findings were told. */
  readonly told = new Set<string>();

  private readonly connection: MessageConnection;

  private constructor(
    private readonly server: ServerProcess,
    checkWholeWorkspace: boolean,
  ) {
    server.process.stderr.resume();
    const { connection } = server;
    this.connection = connection;
    connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
      if (params.diagnostics.length > 0) this.told.add(params.uri);
      for (const listener of this.listeners) listener(params);
    });
    connection.onRequest('window/workDoneProgress/create', () => null);
    connection.onNotification(
      '$/progress',
      ({ value }: { token: ProgressToken; value: { kind: string } }) => {
        if (value.kind !== 'end') return;
        this.isChecked = true;
        this.ended();
      },
    );
    connection.onRequest('workspace/configuration', ({ items }: { items: unknown[] }) =>
      items.map(() => ({ checkWholeWorkspace })),
    );
    connection.listen();
  }

  static async started(folder: string, checkWholeWorkspace = true): Promise<RepositoryClient> {
    const server = new ServerProcess([commandLine, 'lsp', '--stdio']);
    const client = new RepositoryClient(server, checkWholeWorkspace);
    const { connection } = server;
    const folderUri = pathToFileURL(folder).href;
    await connection.sendRequest('initialize', {
      processId: process.pid,
      rootUri: folderUri,
      workspaceFolders: [{ uri: folderUri, name: 'shop' }],
      capabilities: {
        window: { workDoneProgress: true },
        workspace: { workspaceFolders: true, configuration: true },
        textDocument: { publishDiagnostics: { relatedInformation: true, versionSupport: true } },
      },
    });
    await connection.sendNotification('initialized', {});
    return client;
  }

  /** @returns from before the message was written until its diagnostics were received, ms */
  open(file: string): Promise<number> {
    const uri = pathToFileURL(file).href;
    const text = readFileSync(file, 'utf8');
    this.texts.set(uri, { text, version: 1 });
    const languageId = file.endsWith('.chassis.yaml') ? 'framewright-chassis' : 'framewright-readings';
    const textDocument = { uri, languageId, version: 1, text };
    return this.answer(uri, 1, () =>
      this.connection.sendNotification('textDocument/didOpen', { textDocument }),
    );
  }

  /** @returns as `open` */
  edit(file: string, chosen: (text: string) => Splice): Promise<number> {
    const uri = pathToFileURL(file).href;
    const document = this.texts.get(uri);
    if (!document) throw new Error(`${file} is not open`);
    const splice = chosen(document.text);
    const contentChanges = [changeOf(document.text, splice)];
    document.text = spliced(document.text, splice);
    document.version++;
    const { version } = document;
    return this.answer(uri, version, () =>
      this.connection.sendNotification('textDocument/didChange', {
        textDocument: { uri, version },
        contentChanges,
      }),
    );
  }

  /** How long until findings of each of some files were told, counted from now, ms. */
  async toldAgain(uris: Iterable<string>): Promise<number> {
    const left = new Set(uris);
    const start = performance.now();
    await this.until(({ uri }) => {
      left.delete(uri);
      return left.size === 0;
    });
    return performance.now() - start;
  }

  private async answer(uri: string, version: number, send: () => Promise<void>): Promise<number> {
    const start = performance.now();
    const received = this.until((params) => params.uri === uri && params.version === version);
    await send();
    await received;
    return performance.now() - start;
  }

  private until(isIt: (params: PublishDiagnosticsParams) => boolean): Promise<void> {
    return new Promise((resolve, reject) => {
      const late = setTimeout(() => reject(new Error('the server did not answer')), limitMs);
      const listener = (params: PublishDiagnosticsParams): void => {
        if (!isIt(params)) return;
        clearTimeout(late);
        this.listeners.delete(listener);
        resolve();
      };
      this.listeners.add(listener);
    });
  }

  memoryMb(): ReturnType<typeof memoryMb> {
    return memoryMb(this.server.process.pid);
  }

  workedMs(): number | null {
    return workedMs(this.server.process.pid);
  }

  end(): Promise<void> {
    return this.server.kill();
  }
}
