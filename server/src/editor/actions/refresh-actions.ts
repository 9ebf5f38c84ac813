import { staleSummary } from '../../findings/reading/stale-summary';
import type { TextEdit } from '../../text/edits';
import { offsetsOf } from '../../text/tree';
import type { JobAnalysis } from '../../workspace/workspace';
import type { Action } from './code-action';

/** Every stale summary written anew: what happens on save where the user wants it. */
export function refreshEdits({ findings }: JobAnalysis): TextEdit[] {
  return findings
    .filter((finding) => finding.rule === staleSummary.name && finding.ignored === null)
    .flatMap((finding) => finding.replacements.slice(0, 1))
    .map((replacement) => ({ ...offsetsOf(replacement.place), text: replacement.text }));
}

export function refreshActions(analysis: JobAnalysis): Action[] {
  const edits = refreshEdits(analysis);
  return edits.length === 0
    ? []
    : [
        {
          title: 'Refresh all summaries',
          kind: 'source.refreshSummaries',
          edits,
          preferred: false,
          mends: null,
        },
      ];
}
