import { refreshEdits } from '../../editor/actions/refresh-actions';
import { editOf } from '../convert';
import { asked } from '../session';
import type { Feature } from './feature';

/** Stale summaries are written anew on save, where the user wants it. */
export const refreshOnSave: Feature = {
  capabilities: {},
  sync: { willSaveWaitUntil: true },
  register: (session) =>
    session.documents.onWillSaveWaitUntil(async ({ document }) => {
      if (session.configuration().refreshSummariesOnSave !== true) return [];
      const found = await asked(session, document.uri);
      if (found?.analysis.kind !== 'readings') return [];
      return refreshEdits(found.analysis).map((edit) => editOf(edit, found.lines));
    }),
};
