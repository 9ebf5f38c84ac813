import { expect, test } from 'vitest';
import { pageStateOf, wantedFrom } from './page-state';
import { firstWanted } from './wanted';

const file = 'file:///shop/jobs/w-1.readings.yaml';

test('what a page kept is wanted again', () => {
  const wanted = { ...firstWanted, section: 'history', stage: 2, over: 0, selected: 'latch' } as const;
  expect(wantedFrom(JSON.parse(JSON.stringify(pageStateOf(file, wanted))))).toEqual({ file, wanted });
});

test('of what another version kept only what can be read is taken', () => {
  for (const odd of [null, undefined, 7, 'x', {}, { file: 7 }, { file: 'no address' }])
    expect(wantedFrom(odd)).toBeNull();
  expect(wantedFrom({ file })).toEqual({ file, wanted: firstWanted });
  expect(wantedFrom({ file, section: 'colours', stage: -1, over: 0, selected: 3 })).toEqual({
    file,
    wanted: firstWanted,
  });
  expect(wantedFrom({ file, stage: 1.5, over: null, selected: 'latch' })?.wanted).toEqual({
    ...firstWanted,
    selected: 'latch',
  });
});
