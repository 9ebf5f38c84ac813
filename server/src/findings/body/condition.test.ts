import { expect, test } from 'vitest';
import { chassisWith, type Damage, job, jobFiles, measure } from '../../testing/body';
import { analysed } from '../testing/analysed';
import { found, said, silent } from '../testing/kit';

const name = 'body/condition';

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
