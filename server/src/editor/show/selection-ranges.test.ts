import { expect, it } from 'vitest';
import { twoBodies } from '../../testing/two-bodies';
import { offsetOf, shopOf } from '../testing/shop';
import { selectionsAt } from './selection-ranges';

const selected = async (name: string, piece: string): Promise<string[]> => {
  const analysis = await shopOf(twoBodies).analysis(name);
  return selectionsAt(analysis, offsetOf(analysis.text, piece) + 1).map(({ start, end }) =>
    analysis.text.slice(start, end),
  );
};

it('grows from a name to its side, its row, its block', async () => {
  const [name, id, row, rows, readings] = await selected('jobs/w-1.readings.yaml', 'tip.R');
  expect([name, id, row]).toEqual(['tip', 'tip.R', 'tip.R: [3012, -448, 210]']);
  expect(rows.startsWith("'tip.L'")).toBe(true);
  expect(readings.startsWith('readings:')).toBe(true);
});

it('grows from a number to its triple', async () => {
  expect((await selected('specs/hatch.chassis.yaml', '448')).slice(0, 4)).toEqual([
    '448',
    '[3012, 448, 210]',
    'both: [3012, 448, 210]',
    '{ both: [3012, 448, 210], part: rail }',
  ]);
});

it('takes a comment whole, and the file at last', async () => {
  const all = await selected('jobs/w-1.readings.yaml', 'tip of the right');
  expect(all[0]).toBe('# tip of the right rail');
  expect(all.at(-1)).toBe(twoBodies['jobs/w-1.readings.yaml']);
});
