import { expect, test } from 'vitest';
import { isEarlier, monthsAfter } from './dates';

test.each([
  ['2026-01-12', 12, '2027-01-12'],
  ['2026-11-30T09:00', 3, '2027-02-28'],
  ['2027-11-30', 3, '2028-02-29'],
  ['2026-12-31', 1, '2027-01-31'],
  ['2026-08-31', 1, '2026-09-30'],
])('%s and %s months', (at, months, after) => expect(monthsAfter(at, months)).toBe(after));

test('a day alone, or a zone on one side only, is held against the day', () => {
  expect(isEarlier('2026-03-02', '2026-03-02T09:00')).toBe(false);
  expect(isEarlier('2026-03-01', '2026-03-02T09:00')).toBe(true);
  expect(isEarlier('2026-03-02T08:00', '2026-03-02T09:00Z')).toBe(false);
  expect(isEarlier('2026-03-02T08:00', '2026-03-02 09:00')).toBe(true);
  expect(isEarlier('2026-03-02T08:00Z', '2026-03-02T09:30+02:00')).toBe(false);
});
