import type { ReferencePointsAnswer } from '@framewright/schemas/wire';
import { jobReferences } from '../../editor/actions/reference-actions';
import { linesOf } from '../../text/lines';
import { editOf } from '../convert';
import { asked } from '../session';
import type { Feature } from './feature';

/**
 * Reference points by the car of a job. Nothing is written here: who asks makes the edits, of the chassis file as it was then.
 *
 * - `framewright/referencePoints` { uri } → `ReferencePointsAnswer` in `schemas/src/wire.ts`
 */
export const referencePoints: Feature = {
  capabilities: {},
  register: (session) => {
    session.connection.onRequest(
      'framewright/referencePoints',
      async ({ uri }: { uri: string }): Promise<ReferencePointsAnswer> => {
        const found = await asked(session, uri);
        if (found?.analysis.kind !== 'readings') return { message: 'this file is not a job' };
        const references = jobReferences(found.analysis);
        if ('message' in references) return references;
        const { file, made, told } = references;
        const { given, refused, compared } = made;
        const lines = linesOf(file.text);
        return {
          uri: file.uri,
          version: session.documents.get(file.uri)?.version ?? null,
          given: made.text === null ? 0 : given,
          edits: made.edits.map((edit) => editOf(edit, lines)),
          said: [...told, ...made.said],
          refused,
          compared,
        };
      },
    );
  },
};
