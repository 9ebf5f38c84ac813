import type { ServerCapabilities, TextDocumentSyncOptions } from 'vscode-languageserver';
import type { Session } from '../session';

/** One thing that the server can do for an editor: what it announces and what it answers. One file each, one line in `index.ts`. */
export interface Feature {
  readonly capabilities: Partial<ServerCapabilities>;
  readonly sync?: Partial<TextDocumentSyncOptions>;
  register(session: Session): void;
}
