import type { StandingAnswer } from '@framewright/schemas/wire';
import { sealingOf, signing } from '../../editor/actions/sign-off-actions';
import { standingPlaces } from '../../editor/show/standing-places';
import { editOf, emptyEdits, questionOf, rangeOf } from '../convert';
import { momentOf } from '../moment';
import { asked } from '../session';
import type { Feature } from './feature';

/**
 * The sign-off of a job, asked for from anywhere.
 *
 * - `framewright/standing` { uri } → { isSigned, against: { words, range }[], signature } (`StandingAnswer` in `schemas/src/wire.ts`); null for
 *   what is no job.
 * - `framewright/sealing` { uri } → { edits }: the seals of a sign-off that was just filled in; none where something stands against it, or
 *   it has seals.
 */
export const signOff: Feature = {
  capabilities: {},
  register: (session) => {
    const { connection } = session;
    connection.onRequest(
      'framewright/standing',
      async ({ uri }: { uri: string }): Promise<StandingAnswer | null> => {
        const found = await asked(session, uri);
        if (found?.analysis.kind !== 'readings') return null;
        const { analysis, lines } = found;
        const action = signing(analysis, momentOf(session));
        return {
          isSigned: analysis.job.signOff !== null,
          against: standingPlaces(analysis).map(({ words, range }) => ({
            words,
            range: rangeOf(range, lines),
          })),
          signature:
            action &&
            (questionOf(action, uri, lines) ?? { uri, ask: null, edits: emptyEdits(action, lines) }),
        };
      },
    );
    connection.onRequest('framewright/sealing', async ({ uri }: { uri: string }) => {
      const found = await asked(session, uri);
      if (found?.analysis.kind !== 'readings') return { edits: [] };
      return { edits: sealingOf(found.analysis).map((edit) => editOf(edit, found.lines)) };
    });
  },
};
