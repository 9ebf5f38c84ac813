import type { ClientCapabilities, Connection } from 'vscode-languageserver';
import { unawaited } from '../workspace/unawaited';
import { backgroundTimer, type Timer } from './background-timer';
import type { Faults } from './faults';

/** So long after the last of several changes, ms. */
const pauseMs = 300;

/** Tells the editor to ask again for what it shows in files that did not change themselves: once for a burst of changes. */
export function refresher(
  connection: Connection,
  able: () => ClientCapabilities,
  faults: Faults,
): () => void {
  let timer: Timer | undefined;
  const ask = (what: string, request: Promise<unknown>): void =>
    unawaited(request, (error) => faults.log(`asking the editor to show ${what} anew`, error));
  const tell = (): void => {
    const { workspace } = able();
    if (workspace?.inlayHint?.refreshSupport) ask('inlay hints', connection.languages.inlayHint.refresh());
    if (workspace?.semanticTokens?.refreshSupport)
      ask('semantic tokens', connection.languages.semanticTokens.refresh());
    // its type has no name for it: the request is `workspace/codeLens/refresh`
    if (workspace?.codeLens?.refreshSupport)
      ask('code lenses', connection.sendRequest('workspace/codeLens/refresh'));
  };
  return () => {
    clearTimeout(timer);
    timer = backgroundTimer(tell, pauseMs, (error) =>
      faults.stray('asking the editor to show things anew', error),
    );
  };
}
