import type { CancellationToken } from 'vscode-languageserver';
import { Survey } from '../workspace/survey';
import type { Session } from './session';
import { soon } from './soon';
import { endIfUnwanted } from './unwanted';

/** So long other requests wait for a question to all files, and a cancelled one runs on, ms. */
const longestTurnMs = 15;

/** A question to all files, which ends where the editor no longer wants the answer. */
export function surveyOf(session: Session, token: CancellationToken): Survey {
  let turnSince = Date.now();
  return new Survey(session.workspace, session.roots(), async () => {
    if (Date.now() - turnSince > longestTurnMs) {
      // only between two turns of the event loop is a cancellation heard of
      await new Promise<void>(soon);
      turnSince = Date.now();
    }
    endIfUnwanted(token);
  });
}
