import { PassThrough } from 'node:stream';
import {
  createConnection,
  createMessageConnection,
  type MessageConnection,
  ProposedFeatures,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
import { startSession } from '../../doors/start';
import type { Files } from '../../workspace/files';
import { lifecycle } from '../lifecycle';

/** A session in the test's own process, and a client that does what it says it can and nothing else. */
export class InProcessClient {
  readonly connection: MessageConnection;
  /** Requests of the server, in their order. */
  readonly asked: { method: string; params: unknown }[] = [];
  /** Newest findings by URI, as rule names. */
  readonly found = new Map<string, string[]>();
  /** What it logs, but not for information. */
  readonly logged: string[] = [];
  /** What the client answers; a method that is not here gets an error. */
  readonly answers: Record<string, (params: never) => unknown> = {};

  constructor(files: Files) {
    const [toServer, toClient] = [new PassThrough(), new PassThrough()];
    startSession(
      createConnection(
        ProposedFeatures.all,
        new StreamMessageReader(toServer),
        new StreamMessageWriter(toClient),
        lifecycle(),
      ),
      files,
    );
    const { asked, answers, found, logged } = this;
    this.connection = createMessageConnection(
      new StreamMessageReader(toClient),
      new StreamMessageWriter(toServer),
    );
    this.connection.onRequest((method, params) => {
      asked.push({ method, params });
      const answer = answers[method];
      if (!answer) throw new Error(`this client cannot do ${method}`);
      return answer(params as never);
    });
    this.connection.onNotification('textDocument/publishDiagnostics', ({ uri, diagnostics }) => {
      found.set(
        uri,
        (diagnostics as { code: string }[]).map(({ code }) => code),
      );
    });
    this.connection.onNotification('window/logMessage', ({ type, message }) => {
      if (type < 3) logged.push(message);
    });
    this.connection.onUnhandledNotification(() => {});
    this.connection.listen();
  }

  async initialize(capabilities: object, given: object = {}): Promise<Record<string, unknown>> {
    const params = { processId: null, rootUri: null, capabilities, ...given };
    const result = await this.request<{ capabilities: Record<string, unknown> }>('initialize', params);
    await this.tell('initialized', {});
    return result.capabilities;
  }

  request<T>(method: string, params?: object): Promise<T> {
    return params === undefined
      ? this.connection.sendRequest<T>(method)
      : this.connection.sendRequest<T>(method, params);
  }

  tell(method: string, params?: object): Promise<void> {
    return params === undefined
      ? this.connection.sendNotification(method)
      : this.connection.sendNotification(method, params);
  }

  open(uri: string, languageId: string, text: string): Promise<void> {
    return this.tell('textDocument/didOpen', { textDocument: { uri, languageId, version: 1, text } });
  }
}
