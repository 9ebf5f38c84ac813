import { LSPErrorCodes, ResponseError } from 'vscode-languageserver';
import { renamableAt, renameAt } from '../../editor/navigate/rename';
import { rangeOf } from '../convert';
import { queryOfRequest } from '../query-of-request';
import { asked } from '../session';
import { versionsOf, workspaceEditOf } from '../workspace-edit';
import type { Feature } from './feature';

/** The editor shows the reason to whoever asked. */
const refusal = (reason: string): ResponseError<void> =>
  new ResponseError(LSPErrorCodes.RequestFailed, reason);

export const rename: Feature = {
  capabilities: { renameProvider: { prepareProvider: true } },
  register: (session) => {
    session.connection.onPrepareRename(async ({ textDocument, position }) => {
      const found = await asked(session, textDocument.uri);
      if (found === null) return null;
      const renamable = renamableAt(found.analysis, found.lines.offsetAt(position.line, position.character));
      if (renamable === null) return null;
      if ('refused' in renamable) return refusal(renamable.refused);
      return { range: rangeOf(renamable.range, found.lines), placeholder: renamable.name };
    });
    session.connection.onRenameRequest(async ({ textDocument, position, newName }, token) => {
      const before = versionsOf(session);
      const found = await asked(session, textDocument.uri);
      if (found === null) return null;
      const offset = found.lines.offsetAt(position.line, position.character);
      const files = await renameAt(queryOfRequest(session, token), found.analysis, offset, newName);
      return 'refused' in files ? refusal(files.refused) : workspaceEditOf(files, session, before);
    });
  },
};
