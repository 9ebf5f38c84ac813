import { expect, test } from 'vitest';
import { overChoices, stageWords, tabAfter } from './choices';

const stages = [
  { name: 'as received', underTension: false },
  { name: 'under load', underTension: true },
  { name: 'after first pull', underTension: false },
];

test('the words beside the slider tell number, name and load', () => {
  expect(stageWords({ stages, stage: 2 })).toBe('3 of 3 · after first pull');
  expect(stageWords({ stages, stage: 1 })).toBe('2 of 3 · under load (under load)');
  expect(stageWords({ stages: [], stage: null })).toBe('nothing measured yet');
});

test('a stage can be laid over any other and over nothing', () => {
  expect(overChoices({ stages, stage: 2 })).toEqual([
    { value: '', text: 'nothing' },
    { value: '0', text: '1 · as received' },
    { value: '1', text: '2 · under load (under load)' },
  ]);
});

test('arrows go round the tabs, other keys do not', () => {
  expect(tabAfter('ArrowRight', 2, 3)).toBe(0);
  expect(tabAfter('ArrowLeft', 0, 3)).toBe(2);
  expect(tabAfter('Home', 2, 3)).toBe(0);
  expect(tabAfter('End', 0, 3)).toBe(2);
  expect(tabAfter('Enter', 1, 3)).toBeNull();
});
