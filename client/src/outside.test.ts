import type { OutsidePlace } from '@framewright/schemas/wire';
import { expect, test } from 'vitest';
import { nextStop, stopWords } from './outside';

const at = (line: number): OutsidePlace => ({
  range: { start: { line, character: 6 }, end: { line, character: 20 } },
  words: `line ${line}`,
});
const places = [at(10), at(14), at(30)];
const goes = (line: number, way: 'next' | 'previous') => {
  const stop = nextStop(places, line, way);
  return stop && [stop.place.range.start.line, stop.number, stop.wrapped];
};

test.each([
  [0, [10, 1, false], [30, 3, true]],
  [10, [14, 2, false], [30, 3, true]],
  [12, [14, 2, false], [10, 1, false]],
  [30, [10, 1, true], [14, 2, false]],
  [99, [10, 1, true], [30, 3, false]],
])('from line %i', (line, next, previous) => {
  expect(goes(line, 'next')).toEqual(next);
  expect(goes(line, 'previous')).toEqual(previous);
});

test('where nothing is outside there is nowhere to go', () => {
  expect(nextStop([], 5, 'next')).toBeNull();
});

test('the only one is come to again, and not called a new round', () => {
  const stop = nextStop([at(10)], 10, 'next')!;
  expect(stopWords(stop, 1, 'next')).toBe('1 of 1 · line 10');
});

test('a new round is told', () => {
  expect(stopWords(nextStop(places, 30, 'next')!, 3, 'next')).toBe('1 of 3 (from the top again) · line 10');
  expect(stopWords(nextStop(places, 5, 'previous')!, 3, 'previous')).toBe(
    '3 of 3 (from the end again) · line 30',
  );
});
