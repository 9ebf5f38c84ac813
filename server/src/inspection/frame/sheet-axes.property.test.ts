import { describe, expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import type { Direction } from '../../model/axes';
import { jobFrom } from '../../model/read/job-from-text';
import { chassisOf } from '../../model/testing/read';
import { parseText } from '../../text/yaml/parse';
import { inspected } from '../job/inspect';

/** One car, typed by hand into this table in vehicle axes (forward, left, up), and written down as each kind of sheet would have it. */
type Triple = readonly [number, number, number];
type Words = readonly [Direction, Direction, Direction];

const mirrored = ([x, y, z]: Triple): Triple => [x, -y, z];

/** Positions of the left point. */
const bothPoints: Record<string, Triple> = {
  'floor-front': [1200, 420, 95],
  'floor-rear': [-350, 455, 90],
  'tunnel-front': [905, 188, 242],
  'tunnel-rear': [-200, 195, 230],
  'cowl-hole': [1480, 612, 905],
  'rail-root-lower': [1760, 441, 188],
  'rail-root-upper': [1760, 445, 328],
  'rail-middle-lower': [2380, 444, 199],
  'rail-middle-upper': [2380, 448, 340],
  'rail-tip-lower': [3012, 448, 210],
  'rail-tip-upper': [3012, 452, 352],
};
const apartPoints: Record<string, readonly [Triple, Triple]> = {
  'strut-top': [
    [2250, 561, 830],
    [2250, -566, 830],
  ],
  'strut-bolt': [
    [2310, 521, 828],
    [2311, -526, 829],
  ],
};
const centrePoints: Record<string, Triple> = { latch: [3050, 12, 780], hook: [-900, -8, 300] };

const count = (position: Triple, word: Direction, isLeft = true): number => {
  switch (word) {
    case 'forward':
      return position[0];
    case 'rearward':
      return -position[0];
    case 'left':
      return position[1];
    case 'right':
      return -position[1];
    case 'up':
      return position[2];
    case 'down':
      return -position[2];
    case 'outboard':
      return isLeft ? position[1] : -position[1];
  }
};
const written = (position: Triple, words: Words, isLeft = true): string =>
  `[${words.map((word) => count(position, word, isLeft) + 0).join(', ')}]`;

/** Low first, along the length. */
const along = ([low, high]: readonly [number, number], words: Words): string =>
  words.includes('rearward') ? `[${-high}, ${-low}]` : `[${low}, ${high}]`;

const place = (mm: number, words: Words): number => (words.includes('rearward') ? -mm : mm);

const sheet = (words: Words, declared: Words = words): string => {
  const toRight = words.includes('right');
  const upright = words.includes('down') ? '[-5, 1]' : '[-1, 5]';
  const lines = [
    ...Object.entries(bothPoints).map(([name, left]) => {
      const part = name.startsWith('rail') ? 'front-rail' : 'floor';
      const base = part === 'floor' ? ', base: true' : '';
      const tolerance = name.endsWith('tip-upper')
        ? `, tolerance: { length: ${along([-2, 6], words)}, width: [-2, 4], height: ${upright} }`
        : '';
      return `  ${name}: { both: ${written(toRight ? mirrored(left) : left, words, !toRight)}, part: ${part}${base}${tolerance} }`;
    }),
    ...Object.entries(apartPoints).map(
      ([name, [left, right]]) =>
        `  ${name}: { left: ${written(left, words)}, right: ${written(right, words, false)}, part: apron }`,
    ),
    ...Object.entries(centrePoints).map(
      // on a centre point + is left, 1.5 mm that way and 4 mm to the right
      ([name, at]) =>
        `  ${name}: { centre: ${written(at, words)}, tolerance: { width: ${toRight ? '[-1.5, 4]' : '[-4, 1.5]'} } }`,
    ),
  ];
  return `framewright: chassis/1
vehicle: Marten
axes: [${declared.join(', ')}]
source: { kind: published }
build: 0.1
parts:
  floor: { steel: mild }
  apron: { sided: true }
  front-rail: { sided: true, straighten: minor, section: ${along([2450, 2700], words)} }
  radiator-support: { along: width, section: ${toRight ? '[-300, 200]' : '[-200, 300]'} }
points:
${lines.join('\n')}
`;
};

const all: Record<string, Triple> = {
  ...Object.fromEntries(
    Object.entries(bothPoints).flatMap(([name, at]) => [
      [`${name}.L`, at],
      [`${name}.R`, mirrored(at)],
    ]),
  ),
  ...Object.fromEntries(
    Object.entries(apartPoints).flatMap(([name, [left, right]]) => [
      [`${name}.L`, left],
      [`${name}.R`, right],
    ]),
  ),
  ...centrePoints,
};

/** The left rail leans to the right from 2000 on. Places along the car are numbers of the sheet. */
const job = (words: Words): string => `framewright: readings/1
chassis: car.chassis.yaml
instrument: { uncertainty: 0.2 }
base: { between: ${along([-400, 1500], words)} }
timeline:
  - measure: as received
    readings:
${Object.entries(all)
  .map(([id, [x, y, z]]) => {
    const lean = id.startsWith('rail') && id.endsWith('.L') ? -0.03 * Math.max(0, x - 2000) : 0;
    return `      ${id}: [${x}, ${y + lean}, ${z}]`;
  })
  .join('\n')}
  - observe: kink
    part: front-rail.L
    at: ${place(2500, words)}
  - section: front-rail.L
    at: ${along([2460, 2600], words)}
  - section: apron.L
    at: ${place(2300, words)}
    beyond: ${words.includes('rearward') ? 'low' : 'high'}
  - pull: out
    part: front-rail.L
    hook: rail-tip-lower.L
    direction: [0, 1, 0]
    hold: { part: front-rail.L, at: ${place(1800, words)} }
`;

const lengths = ['forward', 'rearward'] as const;
const heights = ['up', 'down'] as const;
const orders: readonly Triple[] = [
  [0, 1, 2],
  [0, 2, 1],
  [1, 0, 2],
  [1, 2, 0],
  [2, 0, 1],
  [2, 1, 0],
];
/** All that the language has: outboard stands in the middle. */
const conventions: readonly Words[] = lengths.flatMap((length) =>
  heights.flatMap((height) =>
    (['left', 'right', 'outboard'] as const).flatMap((width) =>
      orders
        .map((order): Words => {
          const words: Words = [length, width, height];
          return [words[order[0]], words[order[1]], words[order[2]]];
        })
        .filter((words) => width !== 'outboard' || words[1] === 'outboard'),
    ),
  ),
);
const usual: Words = ['forward', 'outboard', 'up'];

const factsOf = (words: Words) => {
  const chassis = chassisOf(sheet(words));
  expect(chassis.problems).toEqual([]);
  const inspection = inspected(jobFrom('file:///w.readings.yaml', parseText(job(words))), chassis);
  expect(inspection.job.problems).toEqual([]);
  const { base, timeline } = inspection.job;
  return {
    points: [...chassis.points].map(([id, { reference, limits }]) => ({ id, reference, limits })),
    bands: [...chassis.parts].map(([id, { section }]) => ({ id, section })),
    base: base.kind === 'between' && [base.fromMm, base.toMm],
    places: timeline.map((entry) => [
      'atMm' in entry ? entry.atMm : null,
      'cutsMm' in entry ? [entry.cutsMm, entry.beyond] : null,
      'holds' in entry ? entry.holds.map((hold) => hold.kind === 'part' && hold.atMm) : null,
    ]),
    judged: inspection.stages.map((stage) =>
      stage.points.map(({ id, verdict, deviation, uncertainty }) => ({
        id,
        verdict,
        deviation,
        uncertainty,
      })),
    ),
    bends: inspection.stages.map((stage) =>
      stage.parts.map(({ part, bend }) => [part.id, bend.kind === 'bend' && [bend.atMm, bend.holdToMm]]),
    ),
  };
};

/** Numbers that differ by no more than a billionth, whole. */
const rounded = (value: unknown): unknown =>
  JSON.parse(
    JSON.stringify(value, (_, each) => (typeof each === 'number' ? Math.round(each * 1e8) / 1e8 + 0 : each)),
  );

describe('one car, typed as each kind of sheet has it', () => {
  const expected = factsOf(usual);

  it('is what the table says', () => {
    expect(Object.fromEntries(expected.points.map(({ id, reference }) => [id, reference]))).toEqual(all);
    const tip = expected.points.filter(({ id }) => id.startsWith('rail-tip-upper'));
    expect(tip.map(({ limits }) => limits)).toEqual([
      [
        [-2, 6],
        [-2, 4],
        [-1, 5],
      ],
      [
        [-2, 6],
        [-4, 2],
        [-1, 5],
      ],
    ]);
    expect(expected.points.find(({ id }) => id === 'latch')?.limits[1]).toEqual([-4, 1.5]);
    expect(expected.places.at(-1)?.[2]).toEqual([1800]);
    expect(expected.judged[0].filter(({ verdict }) => verdict === 'outside').length).toBeGreaterThan(1);
  });

  it('has 56 ways', () => expect(conventions).toHaveLength(56));

  it.each(conventions.map((words) => [words.join(', '), words] as const))(
    '[%s] gives the same points, limits, bands, places and verdicts',
    (_, words) => expect(rounded(factsOf(words))).toEqual(rounded(expected)),
  );
});

describe('a sheet that counts otherwise than it says', () => {
  const caughtBy = async (chassis: string, jobText: string): Promise<string[]> => {
    const files = { 'car.chassis.yaml': chassis, 'w.readings.yaml': jobText };
    const rules = [
      ...(await analysed(files, 'car.chassis.yaml')).findings,
      ...(await analysed(files, 'w.readings.yaml')).findings,
    ].map(({ rule }) => rule);
    return rules.filter((rule) => rule === 'chassis/direction' || rule === 'base/mirrored');
  };
  const inOrder = conventions.filter((words) => /ward/.test(words[0]) && /up|down/.test(words[2]));
  const wrong = inOrder.flatMap((words) =>
    inOrder.filter((declared) => declared !== words).map((declared) => [words, declared] as const),
  );

  it.each(wrong.map((pair) => [pair[0].join(', '), pair[1].join(', '), pair] as const))(
    '[%s] declared as [%s] is caught by a name or by the mirror',
    async (_, __, [words, declared]) =>
      expect((await caughtBy(sheet(words, declared), job(declared))).length).toBeGreaterThan(0),
  );

  it('is caught in no right one', async () => {
    for (const words of inOrder) expect(await caughtBy(sheet(words), job(words))).toEqual([]);
  });

  /** No two of them differ in one word that says a direction. */
  const silentNames = (text: string): string =>
    text
      .replaceAll('front', 'one')
      .replaceAll('rear', 'two')
      .replaceAll('lower', 'a')
      .replaceAll('upper', 'b');

  it('cannot be seen where names tell nothing and two axes are turned, which is a turn of the car', async () => {
    const [words, declared]: [Words, Words] = [
      ['rearward', 'outboard', 'down'],
      ['forward', 'outboard', 'up'],
    ];
    expect(await caughtBy(silentNames(sheet(words, declared)), silentNames(job(declared)))).toEqual([]);
    // one axis alone is a mirror image, whatever the names
    const one: Words = ['rearward', 'outboard', 'up'];
    expect(await caughtBy(silentNames(sheet(one, declared)), silentNames(job(declared)))).toEqual([
      'base/mirrored',
    ]);
  });
});
