import type { TextRange } from '../../findings/rule/finding';
import { pasteTitle, standingRows } from '../../tables/editing/pasted-rows';
import type { Analysis } from '../../workspace/workspace';
import type { Action } from './code-action';

/** *Make rows of this table*: on lines of a table that were pasted as they are under `readings:` or `points:`. */
export function tableRowsActions(analysis: Analysis, range: TextRange): Action[] {
  const made = standingRows(analysis, range.start);
  if (made?.kind !== 'rows') return [];
  return [
    {
      title: `Make ${pasteTitle(made)}`,
      kind: 'quickfix',
      edits: [made.edit],
      preferred: true,
      mends: null,
    },
  ];
}
