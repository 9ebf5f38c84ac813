import { expect, test } from 'vitest';
import { chassisWith, type Damage, job, jobFiles, measure } from '../../testing/body';
import { placeOf } from '../../testing/marten';
import { analysed } from '../testing/analysed';
import { found, said, silent } from '../testing/kit';

const name = 'body/condition';

/** From 0 at the root of the rails to 1 at their tips. */
const share = (x: number): number => (x - 1760) / (3012 - 1760);

/** Everything ahead of the base moved alike. */
const front =
  (shift: (side: number, height: number) => readonly [number, number, number]): Damage =>
  (id, [, y, z]) =>
    id.startsWith('rail') ? shift(Math.sign(y), z) : [0, 0, 0];

const phrase = async (damage: Damage): Promise<string> =>
  (await said(name, jobFiles(job(measure('as received', damage))))).map(({ message }) => message).join();

test('an end shortened and to one side, with figures and certainty', async () => {
  await found(
    name,
    jobFiles(
      job(
        measure(
          'as received',
          front(() => [-12, 9, 0]),
        ).replace('\n', '\n#   ^^^^^^^ information: body/condition front: mash 12.0 mm rearward (±\n'),
      ),
    ),
  );
});

test('each by its name and its direction', async () => {
  expect(await phrase(front(() => [-12, 0, 0]))).toMatch(
    /^front: mash 12\.0 mm rearward \(±[\d.]+ at 95 %\)\.$/,
  );
  expect(await phrase(front(() => [0, -9, 0]))).toMatch(
    /^front: sidesway 9\.0 mm right \(±[\d.]+ at 95 %\)\.$/,
  );
  expect(await phrase(front(() => [0, 0, -8]))).toMatch(/^front: sag 8\.0 mm down/);
  expect(await phrase(front(() => [0, 0, 8]))).toMatch(/^front: high 8\.0 mm up/);
  expect(await phrase(front((side) => [-5 * side, 0, 0]))).toMatch(
    /^front: diamond, left side 10\.0 mm rearward of the right \(±/,
  );
  // the left rail bent from its root on: what is read at the tips, and the mean of all: the five stations stand at 0, 310, 621, 930 and 1252 of 1252 mm,
  // which is 0.497 in the mean
  const sideways: Damage = (id, [x]) => (id.startsWith('rail') ? [0, -20 * share(x), 0] : [0, 0, 0]);
  expect(await phrase(sideways)).toMatch(
    /^front: sidesway 20\.0 mm right at the tips \(±[\d.]+ at 95 %; mean 9\.9 mm\)\.$/,
  );
  const left: Damage = (id, [x]) =>
    id.startsWith('rail') && id.endsWith('.L') ? [-12 * share(x), 0, 0] : [0, 0, 0];
  expect(await phrase(left)).toMatch(/^front: left side mashed 12\.0 mm \(±[\d.]+ at 95 %\)\.$/);
  const unequal: Damage = (id, [x]) =>
    id.startsWith('rail') ? [(id.endsWith('.L') ? -16 : -8) * share(x), 0, 0] : [0, 0, 0];
  expect(await phrase(unequal)).toMatch(
    /^front: mash 12\.0 mm rearward at the tips \(±[\d.]+ at 95 %; mean 6\.0 mm\): left side 16\.0 mm rearward, right side 8\.0 mm rearward\.$/,
  );
  // one rail bent to the side: the mean of the tips is the place of neither
  const leftOut: Damage = (id, [x]) =>
    id.startsWith('rail') && id.endsWith('.L') ? [0, -30 * share(x), 0] : [0, 0, 0];
  expect(await phrase(leftOut)).toMatch(
    /^front: sidesway 15\.0 mm right at the tips \(±[\d.]+ at 95 %; mean 7\.5 mm\): left side 30\.0 mm right, right side in place\.$/,
  );
  // ±4 mm on arms of 441 to 450: 0.51°
  expect(await phrase(front((side) => [0, 0, 4 * side]))).toMatch(
    /^front: twist 0\.51°, top leans right \(±[\d.]+° at 95 %\)\.$/,
  );
});

test('a stretched front is no mash, and what is not certain is not named', async () => {
  expect(await phrase(front(() => [12, 0, 0]))).toBe('');
  // within its limits, though clearly moved
  expect(await phrase(front(() => [-2, 0, 0]))).toBe('');
});

test('the car in its place', async () => {
  await silent(name, jobFiles(job(measure('as received'))));
});

test('one for a stage, said to be under load where it is', async () => {
  const bent = front(() => [0, -9, 0]);
  const text = job(
    `${measure('as received', bent)}\n  - pull: out\n    part: front-rail.L\n${measure(
      'under load',
      front(() => [0, -5, 0]),
    )}`,
  );
  const { findings } = await analysed(
    { 'body.chassis.yaml': chassisWith(), 'job.readings.yaml': text },
    'job.readings.yaml',
  );
  expect(
    findings.filter((each) => each.rule === name).map(({ message }) => message.split(' 9')[0].split(' 5')[0]),
  ).toEqual(['front: sidesway', 'under load, front: sidesway']);
});

test('behind the base, where the base is stated to lie ahead', async () => {
  const behind: Damage = (_, [x]) => (x < 400 ? [11, 0, -7] : [0, 0, 0]);
  const found = await said(
    name,
    jobFiles(job(measure('as received', behind), 'base: { between: [800, 1600] }\n')),
  );
  expect(found.map(({ message }) => message)).toEqual([
    expect.stringMatching(
      /^rear: mash 11\.0 mm forward \(±[\d.]+ at 95 %\), sag 7\.0 mm down \(±[\d.]+ at 95 %\)\.$/,
    ),
  ]);
});

test('on a base that is not decided it says so', async () => {
  const torn: Damage = (id) =>
    id.startsWith('rail') ? [-30, 0, 0] : [0, 0, /^(floor-rear|tunnel-front)/.test(id) ? 12 : 0];
  const found = await said(name, jobFiles(job(measure('as received', torn))));
  expect(found.map(({ message }) => message)).toEqual([
    expect.stringMatching(/^if this alignment holds, front: mash/),
  ]);
});

test('crossed distances that differ are out of square, and what distances do not show is said once', async () => {
  const [tip, behind] = [placeOf('rail-tip-lower'), placeOf('floor-rear')];
  const along = Math.hypot(...tip.map((mm, k) => mm - behind[k])).toFixed(2);
  const crossed = Math.hypot(...tip.map((mm, k) => mm - (k === 1 ? -1 : 1) * behind[k]));
  const spans = (longer: number, shorter: number) => `  - measure: tram
    spans:
      - [floor-rear.L, rail-tip-lower.R, ${(crossed + longer).toFixed(2)}]
      - [rail-tip-lower.L, floor-rear.R, ${(crossed + shorter).toFixed(2)}]
      - [floor-rear.L, rail-tip-lower.L, ${along}]
      - [floor-rear.R, rail-tip-lower.R, ${along}]
`;
  const messages = async (timeline: string) =>
    (await said(name, jobFiles(job(timeline)))).map(({ message }) => message);
  const [square, heights, ...more] = await messages(spans(5, -4));
  expect(more).toEqual([]);
  expect(square).toMatch(
    /^out of square: floor-rear\.L to rail-tip-lower\.R is 9\.0 mm longer than the distance that crosses it, rail-tip-lower\.L to floor-rear\.R \(±[\d.]+ at 95 %\)\.$/,
  );
  expect(heights).toMatch(
    /^distances alone do not show the height of rail-tip-lower\.[LR] and rail-tip-lower\.[LR]: /,
  );
  // the other way round; alike they are square; within the limit nothing is said
  expect((await messages(spans(-4, 5)))[0]).toMatch(
    /^out of square: rail-tip-lower\.L to floor-rear\.R is 9\.0 mm longer/,
  );
  for (const [a, b] of [
    [5, 5],
    [1.5, -1],
  ])
    expect((await messages(spans(a, b))).filter((each) => each.includes('square'))).toEqual([]);
  // what is not shown is told of the newest measure alone
  const twice = await messages(`${spans(0, 0)}${spans(0, 0).replace('tram', 'tram again')}`);
  expect(twice).toHaveLength(1);
});
