import type { PlanAnswer, RecordAnswer } from '@framewright/schemas/wire';
import { planReport } from '../../commands/plan';
import { planLinks } from '../../editor/show/plan-links';
import { recordAnswer } from '../../editor/show/record-answer';
import { asked } from '../session';
import type { Feature } from './feature';

/**
 * The record and the pull plans of a job as it stands in the editor.
 *
 * - `framewright/report` { uri, paper? } → { html, name }, or { message } where there is none; `paper`: `A4` or `letter`, else left to
 *   who prints; `name`: what the file may be called. Who asked saves the text as UTF-8 without a change: its policy names its style sheet
 *   by hash.
 * - `framewright/plan` { uri, part? } → { text, links }: as the command line prints it, and names in it with the row that each was read in
 *   last; or { message } where there is none.
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
    session.connection.onRequest(
      'framewright/plan',
      async ({ uri, part }: { uri: string; part?: string }): Promise<PlanAnswer> => {
        const found = await asked(session, uri);
        if (found?.analysis.kind !== 'readings') return { message: 'A plan is made from a job.' };
        const { inspection } = found.analysis;
        if (inspection === null) return { message: 'Without its chassis file nothing can be planned.' };
        const text = planReport(inspection, part);
        if (text === null) return { message: `The chassis file has no part ${part}.` };
        return { text, links: planLinks(text, inspection, found.analysis.text) };
      },
    );
  },
};
