import { expect, test } from 'vitest';
import { keptOf, wantedOf } from './kept';
import { firstWanted } from './wanted';

const file = 'file:///shop/jobs/w-1.readings.yaml';

test('what a page kept is wanted again', () => {
  const wanted = { ...firstWanted, section: 'history', stage: 2, over: 0, selected: 'latch' } as const;
  expect(wantedOf(JSON.parse(JSON.stringify(keptOf(file, wanted))))).toEqual({ file, wanted });
});

test('of what another version kept only what can be read is taken', () => {
  for (const odd of [null, undefined, 7, 'x', {}, { file: 7 }, { file: 'no address' }])
    expect(wantedOf(odd)).toBeNull();
  expect(wantedOf({ file })).toEqual({ file, wanted: firstWanted });
  expect(wantedOf({ file, section: 'colours', stage: -1, over: 0, selected: 3 })).toEqual({
    file,
    wanted: firstWanted,
  });
  expect(wantedOf({ file, stage: 1.5, over: null, selected: 'latch' })?.wanted).toEqual({
    ...firstWanted,
    selected: 'latch',
  });
});
