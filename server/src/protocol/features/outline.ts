import { type DocumentSymbol, type SymbolInformation, SymbolKind } from 'vscode-languageserver';
import { type OutlineItem, type OutlineKind, outlineOf } from '../../editor/show/outline';
import type { LineTable } from '../../text/lines';
import { rangeOf } from '../convert';
import { seen } from '../session';
import type { Feature } from './feature';

/** The signs that editors have for such things. */
export const symbolKinds: Record<OutlineKind, SymbolKind> = {
  job: SymbolKind.File,
  vehicle: SymbolKind.Package,
  group: SymbolKind.Namespace,
  part: SymbolKind.Class,
  point: SymbolKind.Field,
  span: SymbolKind.Property,
  stage: SymbolKind.Event,
  pull: SymbolKind.Operator,
  work: SymbolKind.Method,
  'sign-off': SymbolKind.Key,
};

export const outline: Feature = {
  capabilities: { documentSymbolProvider: true },
  register: (session) =>
    session.connection.onDocumentSymbol(
      async ({ textDocument }): Promise<DocumentSymbol[] | SymbolInformation[] | null> => {
        const found = await seen(session, textDocument.uri);
        if (found === null) return null;
        const items = outlineOf(found.analysis);
        if (session.able().textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport)
          return items.map((item) => symbolOf(item, found.lines));
        return items.flatMap((item) => flat(item, textDocument.uri, found.lines));
      },
    ),
};

const symbolOf = (item: OutlineItem, lines: LineTable): DocumentSymbol => ({
  name: item.name,
  detail: item.detail,
  kind: symbolKinds[item.kind],
  range: rangeOf(item.range, lines),
  selectionRange: rangeOf(item.selection, lines),
  children: item.children.map((child) => symbolOf(child, lines)),
});

const flat = (
  { name, kind, range, children }: OutlineItem,
  uri: string,
  lines: LineTable,
  containerName?: string,
): SymbolInformation[] => [
  {
    name,
    kind: symbolKinds[kind],
    location: { uri, range: rangeOf(range, lines) },
    ...(containerName ? { containerName } : {}),
  },
  ...children.flatMap((child) => flat(child, uri, lines, name)),
];
