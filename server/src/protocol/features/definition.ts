import type { LocationLink } from 'vscode-languageserver';
import { definitionAt } from '../../editor/navigate/definition';
import { linesOf } from '../../text/lines';
import { rangeOf } from '../convert';
import { queryOfRequest } from '../query-of-request';
import { asked } from '../session';
import type { Feature } from './feature';

const fileStart = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };

export const definition: Feature = {
  capabilities: { definitionProvider: true },
  register: (session) =>
    session.connection.onDefinition(async ({ textDocument, position }, token) => {
      const found = await asked(session, textDocument.uri);
      if (found === null) return null;
      const query = queryOfRequest(session, token);
      const answer = await definitionAt(
        query,
        found.analysis,
        found.lines.offsetAt(position.line, position.character),
      );
      if (answer === null) return null;
      const links: LocationLink[] = [];
      for (const target of answer.targets) {
        const text = await query.readText(target.uri);
        if (text === null) continue;
        const range = target.range ? rangeOf(target.range, linesOf(text)) : fileStart;
        const originSelectionRange = rangeOf(answer.about, found.lines);
        links.push({
          originSelectionRange,
          targetUri: query.spelled(target.uri),
          targetRange: range,
          targetSelectionRange: range,
        });
      }
      if (session.able().textDocument?.definition?.linkSupport) return links;
      return links.map(({ targetUri, targetSelectionRange }) => ({
        uri: targetUri,
        range: targetSelectionRange,
      }));
    }),
};
