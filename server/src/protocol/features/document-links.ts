import type { DocumentLink } from 'vscode-languageserver';
import { linksIn } from '../../editor/navigate/links';
import { rangeOf } from '../convert';
import { asked } from '../session';
import type { Feature } from './feature';

/** Paths lead to files; names of rules to their pages, where the editor shows pages. */
export const documentLinks: Feature = {
  capabilities: { documentLinkProvider: {} },
  register: (session) =>
    session.connection.onDocumentLinks(async ({ textDocument }) => {
      const found = await asked(session, textDocument.uri);
      if (found === null) return null;
      const { rulePages } = session.options();
      return linksIn(found.analysis).flatMap((link): DocumentLink[] => {
        const range = rangeOf(link.range, found.lines);
        if (link.kind === 'file') return [{ range, target: link.uri }];
        return rulePages === null ? [] : [{ range, target: `${rulePages}${link.rule}.md` }];
      });
    }),
};
