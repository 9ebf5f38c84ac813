import { expect, it } from 'vitest';
import { followText, followTip } from './follow-words';

const state = { table: 'arm.csv', job: 'w-1.readings.yaml', rows: 1, left: 0, waits: null };

it('tells how many rows came, what was not understood and why it waits', () => {
  expect(followText(state)).toBe('$(eye) arm.csv: 1 row');
  expect(followText({ ...state, rows: 4, left: 2 })).toBe('$(warning) arm.csv: 4 rows, 2 not understood');
  const waiting = { ...state, rows: 0, waits: 'the file is empty' };
  expect(followText(waiting)).toBe('$(watch) arm.csv: 0 rows');
  expect(followTip(waiting)).toContain('Waiting: the file is empty. A click stops it.');
  expect(followTip(state)).not.toContain('Waiting');
});
