import { editsForMoves } from '../../editor/navigate/file-moves';
import { queryOfRequest } from '../query-of-request';
import { versionsOf, workspaceEditOf } from '../workspace-edit';
import type { Feature } from './feature';

/** Paths of chassis files follow files and folders that are renamed or moved in the editor. */
export const fileRename: Feature = {
  capabilities: {
    workspace: {
      fileOperations: {
        willRename: {
          filters: [
            { pattern: { glob: '**/*.{chassis,readings}.yaml', matches: 'file' } },
            { pattern: { glob: '**', matches: 'folder' } },
          ],
        },
      },
    },
  },
  register: (session) =>
    session.connection.workspace.onWillRenameFiles(async ({ files }, token) => {
      const before = versionsOf(session);
      const moves = files.map(({ oldUri, newUri }) => ({ from: oldUri, to: newUri }));
      const edits = await editsForMoves(queryOfRequest(session, token), moves);
      return edits.length === 0 ? null : workspaceEditOf(edits, session, before);
    }),
};
