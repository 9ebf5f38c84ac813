import { performance } from 'node:perf_hooks';
import { pathToFileURL } from 'node:url';
import type {
  Diagnostic,
  InitializeResult,
  MessageConnection,
  PublishDiagnosticsParams,
} from 'vscode-languageserver-protocol/node';
import { ServerProcess } from '../server-process';
import { memoryMb } from './process-figures';
import type { ServerKind } from './servers';
import { changeOf, type Splice, spliced } from './splice';

/** The longest that any server is waited for. */
const limitMs = 120_000;

export interface Answer {
  /** From before the message was written until its diagnostics were received, ms. */
  readonly milliseconds: number;
  readonly diagnostics: readonly Diagnostic[];
}

/** One server process with one document open. */
export class LanguageClient {
  private version = 1;
  private text = '';
  private uri = '';
  private whole = false;
  private received: ((params: PublishDiagnosticsParams) => void) | null = null;

  private readonly connection: MessageConnection;

  private constructor(
    private readonly kind: ServerKind,
    private readonly server: ServerProcess,
  ) {
    server.process.stderr.resume();
    const { connection } = server;
    this.connection = connection;
    connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) =>
      this.received?.(params),
    );
    connection.onRequest('client/registerCapability', () => null);
    connection.onRequest('workspace/configuration', ({ items }: { items: { section?: string }[] }) =>
      items.map(({ section }) => kind.settings[section ?? ''] ?? null),
    );
    connection.listen();
  }

  /** Starts a server in a folder and tells it its settings. */
  static async started(kind: ServerKind, folder: string): Promise<LanguageClient> {
    const client = new LanguageClient(kind, new ServerProcess(kind.arguments, folder));
    const { connection } = client;
    const folderUri = pathToFileURL(folder).href;
    const { capabilities } = await connection.sendRequest<InitializeResult>('initialize', {
      processId: process.pid,
      rootUri: folderUri,
      workspaceFolders: [{ uri: folderUri, name: 'shop' }],
      initializationOptions: kind.initializationOptions,
      capabilities: {
        workspace: { workspaceFolders: true, configuration: true },
        textDocument: {
          publishDiagnostics: {
            relatedInformation: true,
            versionSupport: true,
            codeDescriptionSupport: true,
          },
        },
      },
    });
    const sync = capabilities.textDocumentSync;
    client.whole = (typeof sync === 'object' ? sync.change : sync) === 1;
    await connection.sendNotification('initialized', {});
    await connection.sendNotification('workspace/didChangeConfiguration', { settings: kind.settings });
    return client;
  }

  /** Opens the document that the edits are about. */
  async open(file: string, text: string): Promise<Answer> {
    this.text = text;
    this.uri = pathToFileURL(file).href;
    const { uri, version } = this;
    return this.answerTo('textDocument/didOpen', {
      textDocument: { uri, languageId: this.kind.languageId, version, text },
    });
  }

  /** Makes an edit, chosen by the text as it stands. */
  async edit(chosen: (text: string) => Splice): Promise<Answer> {
    const splice = chosen(this.text);
    const change = changeOf(this.text, splice);
    this.text = spliced(this.text, splice);
    this.version++;
    return this.answerTo('textDocument/didChange', {
      textDocument: { uri: this.uri, version: this.version },
      contentChanges: [this.whole ? { text: this.text } : change],
    });
  }

  /** The first diagnostics of the document after a message; those that name an older version are passed over. */
  private answerTo(method: string, params: object): Promise<Answer> {
    return new Promise((resolve, reject) => {
      const late = setTimeout(() => reject(new Error(`${this.kind.name} did not answer ${method}`)), limitMs);
      const start = performance.now();
      this.received = ({ uri, version, diagnostics }) => {
        const milliseconds = performance.now() - start;
        // servers differ in what they escape in a URI
        const isOther = decodeURIComponent(uri) !== decodeURIComponent(this.uri);
        if (isOther || (version !== undefined && version !== this.version)) return;
        this.received = null;
        clearTimeout(late);
        resolve({ milliseconds, diagnostics });
      };
      this.connection.sendNotification(method, params).catch(reject);
    });
  }

  /** The most memory that the process ever had, MB; null where the system does not tell. */
  peakMemoryMb(): number | null {
    return memoryMb(this.server.process.pid)?.peak ?? null;
  }

  end(): Promise<void> {
    return this.server.kill();
  }
}
