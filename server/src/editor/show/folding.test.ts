import { expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import { foldsIn } from './folding';

const text = `framewright: readings/1
# one comment
chassis: ./m.chassis.yaml
# two
# comments
scope: [a,
  b]
timeline:
  - measure: a
    readings:
      tip.L: [1, 2, 3]
      tip.R: [1, 2, 3]

  # about the pull
  - pull: b
    part: rail.L
  - note: c
`;

it('folds blocks, entries and stretches of comments, and nothing of one line', async () => {
  const analysis = await analysed({ 'w.readings.yaml': text }, 'w.readings.yaml');
  const shown = foldsIn(analysis).map(({ firstLine, lastLine, isComment }) => [
    firstLine,
    lastLine,
    isComment,
  ]);
  expect(shown).toEqual([
    [3, 4, true],
    [5, 6, false],
    [7, 16, false],
    [8, 11, false],
    [9, 11, false],
    [14, 15, false],
  ]);
  expect(foldsIn(analysis, 2)).toHaveLength(2);
});
