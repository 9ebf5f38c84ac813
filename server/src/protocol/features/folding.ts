import { FoldingRangeKind } from 'vscode-languageserver';
import { foldsIn } from '../../editor/show/folding';
import { asked } from '../session';
import type { Feature } from './feature';

export const folding: Feature = {
  capabilities: { foldingRangeProvider: true },
  register: (session) =>
    session.connection.onFoldingRanges(async ({ textDocument }) => {
      const found = await asked(session, textDocument.uri);
      if (found === null) return null;
      return foldsIn(found.analysis, session.able().textDocument?.foldingRange?.rangeLimit).map(
        ({ firstLine, lastLine, isComment }) => ({
          startLine: firstLine,
          endLine: lastLine,
          ...(isComment ? { kind: FoldingRangeKind.Comment } : {}),
        }),
      );
    }),
};
