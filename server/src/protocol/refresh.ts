import type { ClientCapabilities, Connection } from 'vscode-languageserver';
import { backgroundTimer, type Timer } from './background-timer';

/** So long after the last of several changes, ms. */
const pauseMs = 300;

/** Tells the editor to ask again for what it shows in files that did not change themselves: once for a burst of changes. */
export function refresher(connection: Connection, able: () => ClientCapabilities): () => void {
  let timer: Timer | undefined;
  const tell = (): void => {
    const { workspace } = able();
    if (workspace?.inlayHint?.refreshSupport) connection.languages.inlayHint.refresh();
    if (workspace?.semanticTokens?.refreshSupport) connection.languages.semanticTokens.refresh();
    // its type has no name for it: the request is `workspace/codeLens/refresh`
    if (workspace?.codeLens?.refreshSupport) void connection.sendRequest('workspace/codeLens/refresh');
  };
  return () => {
    clearTimeout(timer);
    timer = backgroundTimer(tell, pauseMs);
  };
}
