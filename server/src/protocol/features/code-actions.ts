import type { CodeAction, Range } from 'vscode-languageserver';
import { actionsAt } from '../../editor/actions/actions-at';
import type { Action } from '../../editor/actions/code-action';
import { fixAllEdits, fixAllKind } from '../../editor/actions/fix-all';
import { linesOf } from '../../text/lines';
import type { Analysis } from '../../workspace/workspace';
import { codeActionOf, withEdit, writtenAt } from '../convert';
import { momentOf } from '../moment';
import { asked, type Session } from '../session';
import type { Feature } from './feature';

const kinds = ['quickfix', 'refactor.rewrite', 'source.refreshSummaries', fixAllKind];

/** What an editor sends back to have the edit of an action: made when it is chosen, not when it is listed. */
interface Chosen {
  readonly uri: string;
  readonly range: Range;
  readonly text: number;
  readonly nth: number;
}

export const codeActions: Feature = {
  capabilities: { codeActionProvider: { codeActionKinds: kinds, resolveProvider: true } },
  register: (session) => {
    session.connection.onCodeAction(async ({ textDocument: { uri }, range, context }) => {
      const found = await asked(session, uri);
      if (found === null) return [];
      const { analysis, lines } = found;
      const abilities = { ...session.options(), asksConsent: asksConsent(session) };
      const text = checksum(analysis.text);
      const wanted: CodeAction[] = [];
      for (const [nth, action] of actionsIn(session, analysis, range).entries()) {
        if (!isWanted(action.kind, context.only)) continue;
        const whole = abilities.resolvesEdits ? action : await made(session, action, analysis);
        const listed = codeActionOf(whole, uri, lines, context.diagnostics, abilities);
        wanted.push(listed.command || listed.edit ? listed : { ...listed, data: { uri, range, text, nth } });
      }
      return wanted;
    });
    session.connection.onCodeActionResolve(async (listed): Promise<CodeAction> => {
      // an action that came whole has nothing to come back for
      if (listed.data === undefined) return listed;
      const { uri, range, text, nth } = listed.data as Chosen;
      const found = await asked(session, uri);
      // the text has changed since: the edit of then would spoil it
      if (found === null || checksum(found.analysis.text) !== text) return listed;
      const action = actionsIn(session, found.analysis, range)[nth];
      if (action?.title !== listed.title) return listed;
      const whole = await made(session, action, found.analysis);
      const edited = withEdit(listed, whole, uri, found.lines, asksConsent(session));
      const command = 'framewright.reveal';
      const place =
        action.reveals && session.options().shows.includes(command)
          ? writtenAt(action, found.analysis.text)
          : null;
      return place === null
        ? edited
        : { ...edited, command: { title: action.title, command, arguments: [uri, place] } };
    });
  },
};

/** It shows edits before it makes them, and takes changes by document. */
const asksConsent = (session: Session): boolean => {
  const able = session.able().workspace?.workspaceEdit;
  return able?.documentChanges === true && able.changeAnnotationSupport !== undefined;
};

const actionsIn = (session: Session, analysis: Analysis, { start, end }: Range): Action[] => {
  const lines = linesOf(analysis.text);
  const range = {
    start: lines.offsetAt(start.line, start.character),
    end: lines.offsetAt(end.line, end.character),
  };
  return actionsAt(analysis, range, momentOf(session));
};

/** An action with its edits: what is safe to fix is found out by judging. */
const made = async (session: Session, action: Action, { uri, text }: Analysis): Promise<Action> => {
  if (action.kind !== fixAllKind) return action;
  const edits = await fixAllEdits(text, (other) => session.workspace.analysisApart(uri, other));
  return { ...action, edits };
};

/** Whether an editor asked for this kind, be it for all. */
const isWanted = (kind: string, only: readonly string[] | undefined): boolean =>
  only?.some((wanted) => wanted === '' || kind === wanted || kind.startsWith(`${wanted}.`)) ?? true;

/** FNV-1a, to tell whether a text is still the one that was asked about. */
function checksum(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash >>> 0;
}
