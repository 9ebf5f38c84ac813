/** A client that knows nothing of any editor: it speaks the Language Server Protocol and remembers what it was told. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type {
  CodeAction,
  Diagnostic,
  Hover,
  InitializeResult,
  MessageConnection,
  Position,
  PublishDiagnosticsParams,
} from 'vscode-languageserver-protocol';
import { Waiting } from './waiting';

const root = path.join(import.meta.dirname, '../..');
const fixtures = path.join(root, 'tests/vscode/fixtures/workspace');
const limitMs = 15_000;

export const cliPath = path.join(root, 'server/bin/framewright.js');
export const workerPath = path.join(root, 'server/dist/browser.js');
export const jobPath = path.join(fixtures, 'jobs/w-2001.readings.yaml');
export const chassisPath = path.join(fixtures, 'specs/marten.chassis.yaml');
export const folderUri = pathToFileURL(fixtures).toString();

export const uriOf = (file: string): string => pathToFileURL(file).toString();

export class ProtocolClient {
  private readonly published = new Map<string, PublishDiagnosticsParams>();
  private readonly waiting = new Waiting();

  constructor(private readonly connection: MessageConnection) {
    connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
      this.published.set(params.uri, params);
      this.waiting.look();
    });
    // What servers ask of clients at their start, answered as by one with no settings.
    connection.onRequest('client/registerCapability', () => null);
    connection.onRequest('workspace/configuration', ({ items }: { items: unknown[] }) =>
      items.map(() => null),
    );
    connection.listen();
  }

  /** Answers the server's own requests for files, as an editor in a browser does. */
  serveFiles(files: ReadonlyMap<string, string>): void {
    this.connection.onRequest('framewright/listFiles', () => ({ uris: [...files.keys()] }));
    this.connection.onRequest('framewright/readFile', ({ uri }: { uri: string }) => ({
      text: files.get(uri) ?? null,
    }));
  }

  /** @param able what the client says that it can do, instead of what any can */
  async initialize(
    options: object,
    folders: readonly string[] = [folderUri],
    able?: object,
  ): Promise<InitializeResult> {
    const result = await this.connection.sendRequest<InitializeResult>('initialize', {
      processId: null,
      rootUri: null,
      workspaceFolders: folders.map((uri) => ({ uri, name: 'shop' })),
      initializationOptions: options,
      capabilities: able ?? {
        workspace: { workspaceFolders: true, configuration: true, applyEdit: true },
        textDocument: {
          publishDiagnostics: {
            relatedInformation: true,
            versionSupport: true,
            codeDescriptionSupport: true,
          },
          codeAction: {
            codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix', 'refactor', 'source'] } },
          },
          hover: { contentFormat: ['markdown', 'plaintext'] },
        },
      },
    });
    await this.connection.sendNotification('initialized', {});
    return result;
  }

  async open(file: string, languageId: string, text = readFileSync(file, 'utf8')): Promise<string> {
    return this.openDocument(uriOf(file), languageId, text);
  }

  async openDocument(uri: string, languageId: string, text: string): Promise<string> {
    const textDocument = { uri, languageId, version: 1, text };
    await this.connection.sendNotification('textDocument/didOpen', { textDocument });
    return text;
  }

  async replace(file: string, version: number, text: string): Promise<void> {
    const params = { textDocument: { uri: uriOf(file), version }, contentChanges: [{ text }] };
    await this.connection.sendNotification('textDocument/didChange', params);
  }

  request<T>(method: string, params: object): Promise<T> {
    return this.connection.sendRequest<T>(method, params);
  }

  /** The findings of a file once they fit; an error with the last ones when they never do. */
  findings(file: string, fits: (all: Diagnostic[]) => boolean): Promise<Diagnostic[]> {
    return this.findingsOf(uriOf(file), fits);
  }

  async findingsOf(uri: string, fits: (all: Diagnostic[]) => boolean): Promise<Diagnostic[]> {
    let all: Diagnostic[] | undefined;
    const fit = (): boolean => {
      all = this.published.get(uri)?.diagnostics;
      return all !== undefined && fits(all);
    };
    await this.waiting.until(fit, limitMs, () => {
      const last = all?.map(({ code, message }) => `${code}: ${message}`);
      return `the findings never fitted; the last were ${JSON.stringify(last, null, 2)}`;
    });
    return all ?? [];
  }

  hover(file: string, position: Position): Promise<Hover | null> {
    return this.connection.sendRequest('textDocument/hover', {
      textDocument: { uri: uriOf(file) },
      position,
    });
  }

  actions(file: string, diagnostic: Diagnostic): Promise<CodeAction[]> {
    return this.connection.sendRequest('textDocument/codeAction', {
      textDocument: { uri: uriOf(file) },
      range: diagnostic.range,
      context: { diagnostics: [diagnostic] },
    });
  }

  rulePage(rule: string): Promise<{ markdown: string | null }> {
    return this.connection.sendRequest('framewright/rulePage', { rule });
  }
}

export const hasRule =
  (rule: string) =>
  (all: Diagnostic[]): boolean =>
    all.some(({ code }) => code === rule);

/** The text that a range covers; ranges within one line only. */
export const covered = (text: string, { range }: Pick<Diagnostic, 'range'>): string =>
  text.split('\n')[range.start.line].slice(range.start.character, range.end.character);

/** Position of a word's first letter. */
export const positionOf = (text: string, word: string): Position => {
  const before = text.slice(0, text.indexOf(word)).split('\n');
  return { line: before.length - 1, character: before[before.length - 1].length };
};
