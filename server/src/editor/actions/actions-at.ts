import type { TextRange } from '../../findings/rule/finding';
import { isUnread } from '../../findings/rule-list';
import { applyEdits } from '../../text/edits';
import { parseText } from '../../text/yaml/parse';
import type { Analysis } from '../../workspace/workspace';
import { advisedRowsActions } from './advised-rows-action';
import { baseActions } from './base-actions';
import type { Action, Moment } from './code-action';
import { fixAllActions } from './fix-all';
import { nextMeasureActions } from './next-measure-action';
import { planActions } from './plan-actions';
import { fixActions } from './quick-fixes';
import { referenceActions } from './reference-actions';
import { refreshActions } from './refresh-actions';
import { scopeActions } from './scope-actions';
import { showActions } from './show-actions';
import { signOffActions } from './sign-off-actions';
import { silenceActions } from './silence-actions';
import { suggestionActions } from './suggestion-actions';
import { summaryActions } from './summary-actions';
import { swapSidesActions } from './swap-sides-actions';
import { tableRowsActions } from './table-rows-action';
import { unitsActions } from './units-action';
import { unreachableActions } from './unreachable-action';

/**
 * All that is offered at a range, what helps first and silence last. A new action is a new file and one line here. While the text is broken it is not known where a list
 * ends: then only what mends it is offered.
 */
export function actionsAt(analysis: Analysis, range: TextRange, moment: Moment): Action[] {
  if (analysis.tree.problems.length > 0) return mending(analysis, range);
  const ofJob =
    analysis.kind !== 'readings'
      ? []
      : [
          ...baseActions(analysis, range),
          ...advisedRowsActions(analysis, range),
          ...scopeActions(analysis, range),
          ...nextMeasureActions(analysis, range, moment),
          ...planActions(analysis, range),
          ...summaryActions(analysis, range, moment),
          ...unreachableActions(analysis, range),
          ...swapSidesActions(analysis, range),
          ...referenceActions(analysis, range),
          ...signOffActions(analysis, range, moment),
          ...refreshActions(analysis),
        ];
  const shown = analysis.kind === 'readings' ? showActions(analysis, range, moment) : [];
  return [
    ...tableRowsActions(analysis, range),
    ...shown,
    ...fixActions(analysis, range),
    ...suggestionActions(analysis, range),
    ...ofJob,
    ...unitsActions(analysis, range),
    ...fixAllActions(analysis),
    ...silenceActions(analysis, range),
  ];
}

/** Fixes of the text and of names, which stay where those stand, and a word in the place of a row that cannot be read. */
function mending(analysis: Analysis, range: TextRange): Action[] {
  const { text, tree } = analysis;
  const isMended = ({ edits }: Action): boolean =>
    parseText(applyEdits(text, edits)).problems.length < tree.problems.length;
  return [
    ...tableRowsActions(analysis, range),
    ...fixActions(analysis, range).filter(({ mends }) => mends !== null && isUnread(mends.rule)),
    ...suggestionActions(analysis, range),
    ...(analysis.kind === 'readings' ? unreachableActions(analysis, range).filter(isMended) : []),
    ...fixAllActions(analysis),
  ];
}
