import {
  type CancellationToken,
  type CompletionItem,
  CompletionItemKind,
  InsertTextFormat,
  InsertTextMode,
} from 'vscode-languageserver';
import type { Completion, Subject } from '../../editor/complete/completion-item';
import { completionPage } from '../../editor/complete/completion-page';
import { completionsAt } from '../../editor/complete/completions';
import { markdownOf, rangeOf } from '../convert';
import { queryOfRequest } from '../query-of-request';
import { asked, type Session } from '../session';
import type { Feature } from './feature';

const itemKinds: Record<Completion['kind'], CompletionItemKind> = {
  key: CompletionItemKind.Property,
  point: CompletionItemKind.Variable,
  part: CompletionItemKind.Class,
  rule: CompletionItemKind.Event,
  word: CompletionItemKind.EnumMember,
  file: CompletionItemKind.File,
  entry: CompletionItemKind.Snippet,
};

/** What an editor sends back to have the page of an item. */
interface Chosen {
  readonly uri: string;
  readonly subject: Subject;
}

export const completion: Feature = {
  capabilities: { completionProvider: { resolveProvider: true, triggerCharacters: [' ', '[', '/', '.'] } },
  register: (session) => {
    session.connection.onCompletion(async ({ textDocument: { uri }, position }, token) => {
      const found = await asked(session, uri);
      if (found === null) return null;
      const { analysis, lines } = found;
      const able = session.able().textDocument?.completion?.completionItem;
      const snippets = able?.snippetSupport === true;
      const chassisFiles = () => filesOf(session, uri, token);
      const offset = lines.offsetAt(position.line, position.character);
      const items = await completionsAt(analysis, offset, { snippets, chassisFiles });
      return items.map((each, nth): CompletionItem => {
        const { label, kind, text, snippet, replaces, detail, subject } = each;
        return {
          label,
          kind: itemKinds[kind],
          textEdit: { range: rangeOf(replaces, lines), newText: text },
          // what is typed already is the beginning of the text, not of what it is called
          ...(kind === 'entry' ? { filterText: text.split('\n', 1)[0].trimStart() } : {}),
          // the likeliest first, whatever it is called
          sortText: String(nth).padStart(5, '0'),
          ...(snippet
            ? { insertTextFormat: InsertTextFormat.Snippet, insertTextMode: InsertTextMode.adjustIndentation }
            : {}),
          ...(detail === null ? {} : { detail }),
          ...(able?.labelDetailsSupport ? beside(detail) : {}),
          ...(subject === null ? {} : { data: { uri, subject } }),
        };
      });
    });
    session.connection.onCompletionResolve(async (item): Promise<CompletionItem> => {
      const chosen = item.data as Chosen | undefined;
      const found = chosen ? await asked(session, chosen.uri) : null;
      if (!chosen || found === null) return item;
      const value = completionPage(found.analysis, chosen.subject);
      return value === null ? item : { ...item, documentation: markdownOf(value, session.able()) };
    });
  },
};

/** Beside a name there is room for one thing: a longer text would cut off its side. All of it stands in the page. */
const beside = (detail: string | null): Pick<CompletionItem, 'labelDetails'> =>
  detail?.includes(' · ') ? { labelDetails: { description: detail.split(' · ').at(-1) } } : {};

async function filesOf(session: Session, uri: string, token: CancellationToken): Promise<string[]> {
  const all = await queryOfRequest(session, token).uris([uri], false);
  return all.filter((each) => session.workspace.kindOf(each) === 'chassis');
}
