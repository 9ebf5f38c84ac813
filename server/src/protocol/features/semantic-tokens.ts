import {
  type Range,
  type SemanticTokens,
  SemanticTokensBuilder,
  type SemanticTokensDelta,
} from 'vscode-languageserver';
import { tokenModifiers, semanticTokens as tokensIn, tokenTypes } from '../../editor/show/semantic-tokens';
import type { TextRange } from '../../findings/rule/finding';
import type { LineTable } from '../../text/lines';
import type { Shown } from '../diagnostics';
import { type Session, seen } from '../session';
import type { Feature } from './feature';

/** Points by their verdict, numbers and units. */
export const semanticTokens: Feature = {
  capabilities: {
    semanticTokensProvider: {
      legend: { tokenTypes: [...tokenTypes], tokenModifiers: [...tokenModifiers] },
      full: { delta: true },
      range: true,
    },
  },
  register: (session) => {
    // what each open document was told last: a delta is against that
    const builders = new Map<string, SemanticTokensBuilder>();
    const builderOf = (uri: string): SemanticTokensBuilder => {
      const known = builders.get(uri) ?? new SemanticTokensBuilder();
      if (session.documents.get(uri)) builders.set(uri, known);
      return known;
    };
    session.documents.onDidClose(({ document }) => builders.delete(document.uri));
    const { semanticTokens: requests } = session.connection.languages;
    requests.on(async ({ textDocument: { uri } }): Promise<SemanticTokens> => {
      const builder = builderOf(uri);
      const found = await seen(session, uri);
      // starts anew, under a new id
      builder.previousResult('');
      if (found) push(builder, found);
      return builder.build();
    });
    requests.onDelta(
      async ({ textDocument: { uri }, previousResultId }): Promise<SemanticTokens | SemanticTokensDelta> => {
        const builder = builderOf(uri);
        const found = await seen(session, uri);
        builder.previousResult(previousResultId);
        if (found) push(builder, found);
        return builder.buildEdits();
      },
    );
    requests.onRange(({ textDocument: { uri }, range }) => inRange(session, uri, range));
  },
};

async function inRange(session: Session, uri: string, { start, end }: Range): Promise<SemanticTokens> {
  const builder = new SemanticTokensBuilder();
  const found = await seen(session, uri);
  if (found) {
    const { lines } = found;
    const range = {
      start: lines.offsetAt(start.line, start.character),
      end: lines.offsetAt(end.line, end.character),
    };
    push(builder, found, range);
  }
  return builder.build();
}

type Coloured = Shown & { readonly lines: LineTable };

function push(builder: SemanticTokensBuilder, { analysis, lines, row }: Coloured, range?: TextRange): void {
  for (const { start, end, type, modifiers } of tokensIn(analysis, range)) {
    const { line, character } = lines.positionAt(start);
    if (line === row?.line) continue;
    const bits = modifiers.reduce((all, each) => all | (1 << tokenModifiers.indexOf(each)), 0);
    builder.push(line, character, end - start, tokenTypes.indexOf(type), bits);
  }
}
