import type { RecordAnswer } from '@framewright/schemas/wire';
import { recordAnswer } from '../../editor/show/record-answer';
import { asked } from '../session';
import type { Feature } from './feature';

/**
 * The record of a job as it stands in the editor.
 *
 * - `framewright/report` { uri, paper? } → { html, name }, or { message } where there is none; `paper`: `A4` or `letter`, else left to
 *   who prints; `name`: what the file may be called. Who asked saves the text as UTF-8 without a change: its policy names its style sheet
 *   by hash.
 */
export const report: Feature = {
  capabilities: {},
  register: (session) => {
    session.connection.onRequest(
      'framewright/report',
      async ({ uri, paper }: { uri: string; paper?: string }): Promise<RecordAnswer> => {
        const found = await asked(session, uri);
        if (found === null) return { message: 'the file cannot be read' };
        return recordAnswer(found.analysis, paper === 'A4' || paper === 'letter' ? paper : null);
      },
    );
  },
};
