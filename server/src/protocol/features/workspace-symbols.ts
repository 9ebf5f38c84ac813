import { symbolsFor } from '../../editor/navigate/workspace-symbols';
import { fileName } from '../../model/file-name';
import { queryOfRequest } from '../query-of-request';
import type { Feature } from './feature';
import { symbolKinds } from './outline';

/** Jobs by order number, bodies by vehicle. */
export const workspaceSymbols: Feature = {
  capabilities: { workspaceSymbolProvider: true },
  register: (session) =>
    session.connection.onWorkspaceSymbol(async ({ query }, token) => {
      const symbols = await symbolsFor(queryOfRequest(session, token), query);
      return symbols.map(({ kind, name, uri, range }) => ({
        name,
        kind: symbolKinds[kind],
        location: { uri, range },
        containerName: fileName(uri),
      }));
    }),
};
