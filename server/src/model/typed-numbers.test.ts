import { expect, it } from 'vitest';
import { offsetsOf } from '../text/tree';
import { parseText } from '../text/yaml/parse';
import type { Measure } from './job';
import { jobFrom } from './read/job-from-text';
import { chassisOf } from './testing/read';
import type { TypedTriple } from './typed-numbers';

const digitsOf = (triples: readonly TypedTriple[] | null | undefined) =>
  triples?.map((triple) => triple.map(({ source }) => source)) ?? null;

function readingsIn(rows: string) {
  const text = `framewright: readings/1\nchassis: a.chassis.yaml\nunits: inch\nraw: &row [1, 2, 3]\none: &one 4\ntimeline:\n  - measure: a\n    readings:\n${rows}`;
  const measure = jobFrom('file:///w.readings.yaml', parseText(text)).timeline[0] as Measure;
  return { text, readings: measure.readings };
}

it('gives the digits of each repeat as typed, whatever the unit, with their places', () => {
  const { text, readings } = readingsIn(
    `      a: [01.50, -2.0, +3]
      b.L: [[1.0, 2, 3], # again
            [4, 5e1, 6.10]]
      c:
        - [7, 8, 9]
`,
  );
  expect(readings.map(({ typed }) => digitsOf(typed))).toEqual([
    [['01.50', '-2.0', '+3']],
    [
      ['1.0', '2', '3'],
      ['4', '5e1', '6.10'],
    ],
    [['7', '8', '9']],
  ]);
  for (const { source, place } of readings.flatMap(({ typed }) => typed ?? []).flat()) {
    const { start, end } = offsetsOf(place);
    expect(text.slice(start, end)).toBe(source);
  }
});

it('gives none where a number stands elsewhere or a repeat was left out', () => {
  const { readings } = readingsIn(
    '      a: *row\n      b: [*one, 2, 3]\n      c: [[1, 2, 3], *row]\n      d: [[1, 2], [4, 5, 6]]\n      e: unreachable\n',
  );
  expect(readings.map(({ id, typed }) => [id, typed])).toEqual(
    ['a', 'b', 'c', 'd', 'e'].map((id) => [id, null]),
  );
});

it('says whether the name may be typed over', () => {
  const { readings } = readingsIn('      a: [1, 2, 3]\n      b: [[1, 2, 3]]\n      "c": [1, 2, 3]\n');
  expect(readings.map(({ id, hasPlainKey }) => [id, hasPlainKey])).toEqual([
    ['a', true],
    ['b', true],
    ['c', false],
  ]);
});

it('gives the digits of coordinates in the signs of the file', () => {
  const { points } = chassisOf(
    'framewright: chassis/1\nvehicle: Marten\nunits: inch\npoints:\n  a:\n    both: [1.0, 2.50, 3]\n    base: true\n  b: { left: [1, 2, 3.0], right: [1, 2, 3], tolerance: 1 }\n',
  );
  expect(
    ['a.L', 'a.R', 'b.L', 'b.R'].map((id) => {
      const typed = points.get(id)?.coordinates.typed;
      return typed && digitsOf([typed]);
    }),
  ).toEqual([[['1.0', '2.50', '3']], [['1.0', '2.50', '3']], [['1', '2', '3.0']], [['1', '2', '3']]]);
});
