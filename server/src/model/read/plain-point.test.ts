import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MapEntry } from '../../text/tree';
import { parseText } from '../../text/yaml/parse';
import type { Problem } from '../problem';
import { defaultSheetAxes, type SheetNumbers } from '../sheet-axes';
import { plainPoint } from './plain-point';
import { judgedPoint } from './point-from-text';

/** The entry of a point with a value as written. */
function pointWith(value: string): MapEntry {
  const { root } = parseText(`points:\n  latch: ${value}\n`);
  const points = root?.kind === 'map' ? root.entries[0].value : null;
  if (points?.kind !== 'map') throw new Error('no point was read');
  return points.entries[0];
}

const position = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom('[1204.1, 421, 95.4]', '[-1, 0, 1e3]') },
  fc.constantFrom(
    '[0x1F, 2, 3]',
    '[1, 2]',
    '[1, 2, 99999999]',
    '[1, 2, .inf]',
    '[1, "2", 3]',
    '[]',
    '7',
    '~',
  ),
);
const where = fc
  .tuple(fc.constantFrom('both', 'left', 'right', 'centre'), position)
  .map(([key, value]) => `${key}: ${value}`);
const what = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom('part: floor', 'part: "2"', 'base: false', 'fixing: hole') },
  fc
    .tuple(
      fc.constantFrom('part', 'base', 'fixing', 'tolerance', 'uncertainty', 'prt', '"part"', 'true'),
      fc.constantFrom('floor', 'true', 'hole', 'bore', '""', '2', '"hole"', '~', '[floor]'),
    )
    .map(([key, value]) => `${key}: ${value}`),
);
const pairsOfPoint = fc
  .tuple(fc.array(where, { maxLength: 2 }), fc.array(what, { maxLength: 3 }))
  .chain(([first, second]) => fc.shuffledSubarray([...first, ...second]));

const scales: readonly SheetNumbers[] = [
  { mm: 1, axes: defaultSheetAxes },
  { mm: 25.4, axes: defaultSheetAxes },
  { mm: 1, axes: ['down', 'right', 'rearward'] },
];

describe('a point in the plainest writing', () => {
  it('is what the schema makes of it, whatever is written, and there is nothing to say of it', () => {
    let plain = 0;
    fc.assert(
      fc.property(pairsOfPoint, fc.constantFrom(...scales), (pairs, numbers) => {
        const entry = pointWith(`{ ${pairs.join(', ')} }`);
        const point = plainPoint('latch', entry, numbers);
        if (point === null) return;
        plain++;
        const problems: Problem[] = [];
        expect(judgedPoint('latch', entry, numbers, (problem) => problems.push(problem))).toEqual({
          point,
          whole: true,
        });
        expect(problems).toEqual([]);
      }),
      { numRuns: 2000 },
    );
    expect(plain).toBeGreaterThan(100);
  });

  it.each([
    '{ both: [1200, 420, 95], part: floor, base: true, fixing: hole }',
    '{ left: [1200, 420, 95], right: [1201, 421, 94.5] }',
    '{ part: floor, centre: [1200.5, -0.5, 95] }',
  ])('is read without the schema: %s', (value) =>
    expect(plainPoint('latch', pointWith(value), scales[0])).not.toBeNull(),
  );
});
