import type { TextRange } from '../../findings/rule/finding';
import { standingRows } from '../../tables/editing/pasted-rows';
import type { Analysis } from '../../workspace/workspace';
import type { Action } from './code-action';

/** *Make rows of this table*: on lines of a table that were pasted as they are under `readings:` or `points:`. */
export function tableRowsActions(analysis: Analysis, range: TextRange): Action[] {
  const made = standingRows(analysis, range.start);
  if (made?.kind !== 'rows') return [];
  const { rows, left } = made;
  const comments = left === 0 ? '' : `, ${left} left as comments`;
  return [
    {
      title: `Make rows of this table (${rows === 1 ? '1 point' : `${rows} points`}${comments})`,
      kind: 'quickfix',
      edits: [made.edit],
      preferred: true,
      mends: null,
    },
  ];
}
