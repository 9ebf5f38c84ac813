import { expect, test } from 'vitest';
import { type GivenReferences, referenceLines } from './reference-lines';

const answer: GivenReferences = {
  uri: 'file:///shop/car.chassis.yaml',
  version: null,
  given: 2,
  edits: [],
  said: [
    'W-1: its control points lie in one plane',
    'hole: both, ± 0.8 0.9 1.2 mm, from W-1',
    '  one car: how far cars scatter here is not known',
    '  unproven: nothing shows the part to be sound',
    'stud: left, ± 0.8 0.9 1.2 mm, from W-1',
  ],
  refused: ['tip: no reference', '  tip.L of W-1 is left out'],
  compared: ['latch agrees with the file'],
};

test('what is written comes first, then each point with all that is said of it', () => {
  const lines = referenceLines(answer, 'car.chassis.yaml');
  expect(lines.map(({ label }) => label)).toEqual([
    '$(check) Write 2 new points into car.chassis.yaml',
    'by this car',
    'W-1: its control points lie in one plane',
    'hole: both, ± 0.8 0.9 1.2 mm, from W-1',
    'stud: left, ± 0.8 0.9 1.2 mm, from W-1',
    expect.stringMatching(/^not given/),
    'tip: no reference',
    expect.stringMatching(/^in the file already/),
    'latch agrees with the file',
  ]);
  expect(lines.filter(({ isHeading }) => isHeading)).toHaveLength(3);
  expect(lines[3].detail).toBe(
    'one car: how far cars scatter here is not known; unproven: nothing shows the part to be sound',
  );
  expect(lines[6].detail).toBe('tip.L of W-1 is left out');
  expect(lines.filter(({ writes }) => writes).map(({ label }) => label)).toEqual([lines[0].label]);
});

test('where nothing is new, nothing can be written, and the comparison is shown', () => {
  const lines = referenceLines({ ...answer, given: 0, said: [], refused: [] }, 'car.chassis.yaml');
  expect(lines.map(({ label }) => label)).toEqual([
    '$(info) There is no new point to write into car.chassis.yaml',
    expect.stringMatching(/^in the file already/),
    'latch agrees with the file',
  ]);
  expect(lines.some(({ writes }) => writes)).toBe(false);
});
