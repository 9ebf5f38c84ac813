import { expect, it } from 'vitest';
import { coverage95 } from '../inspection/alignment/verdict';
import { inspectionOf, jobOn } from '../testing/car';
import { leftAndMost, leftPhrase, upToText } from './advice-words';

const { chassis } = inspectionOf(jobOn('  - note: waiting'));
const point = [...chassis.points.values()][0];
/** ± at 95 %, mm; the band is such that ±2.0 is the most. */
const left = (mm: number) => ({
  point,
  axis: 2 as const,
  uncertaintyMm: mm / coverage95,
  halfMm: (3 * 2) / coverage95,
});

it.each([
  [2.9, ['±2.9', '±2.0']],
  [2.04, ['±2.04', '±2.00']],
  [2.0001, ['±2.01', '±2.00']],
  [2, ['±2.0', '±2.0']],
  [1.96, ['±2.0', '±2.0']],
])('±%f mm of at most ±2.0 is shown as %j: what is over reads as over', (mm, texts) => {
  expect(leftAndMost(left(mm), 'mm')).toEqual(texts);
  expect(leftPhrase(left(mm), 'mm')).toContain(`${texts[0]} in height (at most ${texts[1]})`);
});

it('shows a digit more in inches too', () => {
  expect(leftAndMost(left(2.005), 'inch')).toEqual(['±0.0790', '±0.0787']);
});

it('never asks for less of an instrument than would do', () => {
  expect(upToText(1.339, 'mm')).toBe('an instrument of standard uncertainty up to 1.33 mm');
});
