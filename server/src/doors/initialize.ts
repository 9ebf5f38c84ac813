import {
  type Connection,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  type InitializeParams,
  type InitializeResult,
  type ServerCapabilities,
  TextDocumentSyncKind,
} from 'vscode-languageserver';
import { clientFiles, filesByScheme } from '../protocol/client-files';
import { features } from '../protocol/features';
import type { EditorOptions } from '../protocol/session';
import { errorWords } from '../text/error-words';
import type { Files } from '../workspace/files';
import { unawaited } from '../workspace/unawaited';
import type { Abilities, SessionState } from './session-parts';

/** How a session begins: what the editor says of itself, and what it is told and asked for in return. */

type GivenOptions = Partial<EditorOptions> & {
  readonly readFilesThroughClient?: boolean | 'virtual';
  readonly watchesFiles?: boolean;
};

/** Names of our files, for editors that are asked to tell when one changes. */
const namePatterns = ['**/*.chassis.yaml', '**/*.readings.yaml', '**/.framewright.yaml'];

/** Takes over what the editor says of itself, and answers what the server can. */
export function initialized(
  { rootUri, workspaceFolders, initializationOptions, capabilities: able }: InitializeParams,
  state: SessionState,
  connection: Connection,
  ownFiles: Files | null,
): InitializeResult {
  const folders = workspaceFolders ?? (rootUri ? [{ uri: rootUri }] : []);
  const given: GivenOptions = initializationOptions ?? {};
  const resolvable = able.textDocument?.codeAction?.resolveSupport?.properties ?? [];
  state.roots = folders.map((folder) => folder.uri);
  state.options = {
    rulePages: given.rulePages ?? null,
    asks: given.asks === true,
    shows: Array.isArray(given.shows) ? given.shows.map(String) : [],
    tellsCursor: given.tellsCursor === true,
    resolvesEdits: resolvable.includes('edit'),
    readsFiles: Boolean(given.readFilesThroughClient),
    spreadsheets: typeof given.spreadsheets === 'string' ? given.spreadsheets : null,
  };
  if (ownFiles && given.readFilesThroughClient) {
    const virtual = clientFiles(connection);
    state.files = given.readFilesThroughClient === 'virtual' ? filesByScheme(ownFiles, virtual) : virtual;
  }
  state.able = able;
  state.can = {
    configure: able.workspace?.configuration === true,
    register: able.workspace?.didChangeConfiguration?.dynamicRegistration === true,
    watch: given.watchesFiles !== true && able.workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
  };
  return { serverInfo: { name: 'framewright' }, capabilities: serverCapabilities() };
}

function serverCapabilities(): ServerCapabilities {
  const capabilities: ServerCapabilities = Object.assign(
    {},
    ...features.map((feature) => feature.capabilities),
  );
  const workspaceFolders = { supported: true, changeNotifications: true };
  const ofWorkspace = features.flatMap((feature) => feature.capabilities.workspace ?? []);
  const fileOperations = Object.assign({}, ...ofWorkspace.map((each) => each.fileOperations ?? {}));
  capabilities.workspace = Object.assign({}, ...ofWorkspace, { workspaceFolders, fileOperations });
  const sync = { openClose: true, change: TextDocumentSyncKind.Incremental };
  capabilities.textDocumentSync = Object.assign(sync, ...features.map((feature) => feature.sync ?? {}));
  return capabilities;
}

/** Of changes. An editor that refuses may tell all the same, and is served without. */
export function askToBeTold(connection: Connection, can: Abilities): void {
  const refusedBy = (error: unknown): void =>
    connection.console.warn(`not told of changes: ${errorWords(error)}`);
  if (can.register)
    unawaited(
      connection.client.register(DidChangeConfigurationNotification.type, { section: 'framewright' }),
      refusedBy,
    );
  if (can.watch)
    unawaited(
      connection.client.register(DidChangeWatchedFilesNotification.type, {
        watchers: namePatterns.map((globPattern) => ({ globPattern })),
      }),
      refusedBy,
    );
}
