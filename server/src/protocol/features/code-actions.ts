import { actionsAt } from '../../editor/actions';
import { codeActionOf } from '../convert';
import { asked } from '../session';
import type { Feature } from './feature';

export const codeActions: Feature = {
  capabilities: {
    codeActionProvider: { codeActionKinds: ['quickfix', 'refactor.rewrite', 'source.refreshSummaries'] },
  },
  register: (session) =>
    session.connection.onCodeAction(async ({ textDocument, range, context }) => {
      const found = await asked(session, textDocument.uri);
      if (found === null) return [];
      const { analysis, lines } = found;
      const offset = ({ line, character }: { line: number; character: number }) => lines.offsetAt(line, character);
      const moment = { today: new Date().toISOString().slice(0, 10) };
      const isWanted = (kind: string) => !context.only || context.only.some((only) => kind === only || kind.startsWith(`${only}.`));
      return actionsAt(analysis, { start: offset(range.start), end: offset(range.end) }, moment)
        .filter((action) => isWanted(action.kind))
        .map((action) => codeActionOf(action, textDocument.uri, lines, context.diagnostics, session.options().asks));
    }),
};
