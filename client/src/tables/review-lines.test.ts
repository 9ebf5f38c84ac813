import { expect, it } from 'vitest';
import { layoutNameFor, reviewLines } from './review-lines';

const understood = {
  understood: 'cells parted by tabs',
  layout: null,
  guessed: ['columns: { point: 1 }', 'decimal: comma'],
  layouts: ['arm'],
  said: 'as received: 2 points in 2 rows, 0 distances',
  refused: [],
  refusedCount: 0,
  byPlace: 0,
  leftOut: [],
  text: null,
  edits: [],
};

it('shows how the table was understood, and offers to keep what was guessed', () => {
  expect(reviewLines(understood, false)).toEqual([
    {
      label: '$(check) Insert as received: 2 points in 2 rows, 0 distances',
      detail: 'Guessed: cells parted by tabs',
      choice: { do: 'insert' },
    },
    {
      label: '$(save) Insert, and keep this layout in the settings…',
      detail: 'columns: { point: 1 }   decimal: comma',
      choice: { do: 'insert and keep' },
    },
    {
      label: '$(list-selection) Read by the layout arm',
      choice: { do: 'read anew', layout: 'arm', byPlace: false },
    },
  ]);
  const known = reviewLines({ ...understood, layout: 'arm' }, false);
  expect(known.map(({ choice }) => choice.do)).toEqual(['insert']);
});

it('says of each row that was not understood where it is, and that it becomes a comment', () => {
  const lines = reviewLines(
    {
      ...understood,
      refused: ['row 3, column 2: x is not a number'],
      refusedCount: 2,
      byPlace: 1,
      leftOut: ['row 9: totals'],
    },
    false,
  );
  expect(lines[0].label).toContain(
    '$(warning) Insert as received: 2 points in 2 rows, 0 distances; 2 rows left as comments',
  );
  expect(lines.map(({ label }) => label).slice(2)).toEqual([
    '$(location) Take 1 row with unknown names for the points that lie there',
    '$(list-selection) Read by the layout arm',
    'not understood',
    'row 3, column 2: x is not a number',
    'and 1 more',
    'no points',
    'row 9: totals',
  ]);
});

it('a layout is called as its table is', () => {
  expect(layoutNameFor('Arm 2 (bench).csv')).toBe('arm-2-bench');
  expect(layoutNameFor('.csv')).toBe('table');
});
