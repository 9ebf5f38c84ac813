import { expect, it } from 'vitest';
import { coverage95 } from '../../inspection/alignment/verdict';
import { inspectionOf, jobOn } from '../../testing/car';
import { jobAdviceLines } from './advise-text';

const [point] = inspectionOf(jobOn('  - note: waiting')).chassis.points.values();
/** ± at 95 %, mm. */
const left = (mm: number) => ({ point, axis: 2 as const, uncertaintyMm: mm / coverage95, halfMm: 3 });
const step = (id: string, mm: number) => ({ ids: [id], isControl: true, left: left(mm), checks: false });

const linesOf = (steps: readonly ReturnType<typeof step>[], reached: boolean): string[] =>
  jobAdviceLines({
    path: 'w.readings.yaml',
    unit: 'mm',
    stage: null,
    advice: {
      uncertaintyMm: 0.5,
      now: left(2.9),
      steps,
      reached,
      confinedTo: 'auto',
      unsettled: false,
      coarse: null,
      after: new Map(),
    },
  }).filter((line) => /^ {2}(read|More)/.test(line));

it('a step that by itself gains nothing stands with the next that does', () => {
  expect(linesOf([step('a', 2.91), step('b', 2.1), step('c', 1.8)], true)).toEqual([
    '  read a and b: ±2.9 → ±2.1',
    '  read c: ±2.1 → ±1.8',
  ]);
});

it('what gains nothing at the end is left out, unless it is what decides', () => {
  expect(linesOf([step('a', 2.5), step('b', 2.5)], false)).toEqual([
    '  read a: ±2.9 → ±2.5',
    expect.stringMatching(/^ {2}More than that cannot be reached/),
  ]);
  expect(linesOf([step('a', 2.9)], false)).toEqual([expect.stringMatching(/^ {2}More cannot be reached/)]);
  expect(linesOf([step('a', 2.5), step('b', 2.48)], true)).toEqual([
    '  read a: ±2.9 → ±2.5',
    '  read b: ±2.50 → ±2.48',
  ]);
});
