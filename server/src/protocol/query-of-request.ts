import type { CancellationToken } from 'vscode-languageserver';
import { WorkspaceQuery } from '../workspace/workspace-query';
import { throwIfCancelled } from './cancellation';
import { nextTurn } from './next-turn';
import type { Session } from './session';

/** So long other requests wait for a question to all files, and a cancelled one runs on, ms. */
const longestTurnMs = 15;

/** A question to all files, which ends where the editor no longer wants the answer. */
export function queryOfRequest(session: Session, token: CancellationToken): WorkspaceQuery {
  let turnSince = Date.now();
  return new WorkspaceQuery(session.workspace, session.roots(), async () => {
    if (Date.now() - turnSince > longestTurnMs) {
      // only between two turns of the event loop is a cancellation heard of
      await new Promise<void>(nextTurn);
      turnSince = Date.now();
    }
    throwIfCancelled(token);
  });
}
