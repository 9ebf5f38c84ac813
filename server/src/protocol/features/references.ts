import type { Location } from 'vscode-languageserver';
import { referencesAt } from '../../editor/navigate/references';
import { linesOf } from '../../text/lines';
import { rangeOf } from '../convert';
import { queryOfRequest } from '../query-of-request';
import { asked } from '../session';
import type { Feature } from './feature';

export const references: Feature = {
  capabilities: { referencesProvider: true },
  register: (session) =>
    session.connection.onReferences(async ({ textDocument, position, context }, token) => {
      const found = await asked(session, textDocument.uri);
      if (found === null) return null;
      const locations: Location[] = [];
      const offset = found.lines.offsetAt(position.line, position.character);
      for await (const { uri, text, references: inFile } of referencesAt(
        queryOfRequest(session, token),
        found.analysis,
        offset,
      )) {
        const lines = linesOf(text);
        const wanted = inFile.filter(({ isDefinition }) => context.includeDeclaration || !isDefinition);
        locations.push(...wanted.map(({ range }) => ({ uri, range: rangeOf(range, lines) })));
      }
      return locations;
    }),
};
