import { DocumentHighlightKind } from 'vscode-languageserver';
import { highlightsAt } from '../../editor/navigate/references';
import { rangeOf } from '../convert';
import { asked } from '../session';
import type { Feature } from './feature';

export const highlights: Feature = {
  capabilities: { documentHighlightProvider: true },
  register: (session) =>
    session.connection.onDocumentHighlight(async ({ textDocument, position }) => {
      const found = await asked(session, textDocument.uri);
      if (found === null) return null;
      const { analysis, lines } = found;
      return highlightsAt(analysis, lines.offsetAt(position.line, position.character)).map(
        ({ range, isDefinition }) => ({
          range: rangeOf(range, lines),
          kind: isDefinition ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
        }),
      );
    }),
};
