import { sealingOf } from '../../editor/actions/sign-off-actions';
import { editOf } from '../convert';
import { asked } from '../session';
import type { Feature } from './feature';

/**
 * The seals of a sign-off that was just filled in.
 *
 * - `framewright/sealing` { uri } → { edits } of that document; none where something stands against the sign-off, or it has seals.
 */
export const sealing: Feature = {
  capabilities: {},
  register: (session) => {
    session.connection.onRequest('framewright/sealing', async ({ uri }: { uri: string }) => {
      const found = await asked(session, uri);
      if (found?.analysis.kind !== 'readings') return { edits: [] };
      return { edits: sealingOf(found.analysis).map((edit) => editOf(edit, found.lines)) };
    });
  },
};
