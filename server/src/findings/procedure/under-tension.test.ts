import { expect, test } from 'vitest';
import { control, job, jobFiles, measure, rule } from '../testing/body';
import { found, silent } from '../testing/kit';

const name = 'procedure/under-tension';
const pull = '  - pull: left rail out\n    part: rail.L\n';
const peak = measure('under load', undefined, ['rail-5.L', 'rail-6.L']);

test('the newest reading is a peak: one for the points of a part', async () => {
  await found(
    name,
    jobFiles(
      job(`
${measure('as received')}
  - pull: left rail out
#   ^^^^ information: procedure/under-tension no release was entered after “left rail out”; if it is off, enter it
    part: rail.L
  - measure: under load
    readings:
      rail-5.L: [2200, 405, 100]
#     ^^^^^^^^ information: procedure/under-tension the newest readings of rail-5.L and rail-6.L were taken under load
      rail-6.L: [2500, 405, 100]
      sill-front.L: [500, 701, 60]
#     ^^^^^^^^^^^^ information: procedure/under-tension the newest reading of sill-front.L was taken under load
`),
    ),
  );
});

test('measured again after release', async () => {
  await silent(
    name,
    jobFiles(
      job(
        `${measure('as received')}\n${pull}${peak}\n  - release: all\n${measure('after', undefined, [...control, 'rail-5.L', 'rail-6.L'])}`,
      ),
    ),
  );
});

test('released, but only one of the two was measured again', async () => {
  const after = measure('after', undefined, [...control, 'rail-6.L']);
  const { found } = await rule(
    name,
    job(`${measure('as received')}\n${pull}${peak}\n  - release: all\n${after}`),
  );
  expect(found.map(({ message }) => message)).toEqual([
    expect.stringContaining('of rail-5.L was taken under load'),
  ]);
});

test('a distance counts like a point', async () => {
  const spans = (name: string, mm: number) => `  - measure: ${name}
    spans: [[rail-6.L, pillar-low.R, ${mm}]]
`;
  const text = job(`${measure('as received')}\n${spans('tram', 2606)}${pull}${spans('under load', 2604)}`);
  const { found } = await rule(name, text);
  expect(found.map(({ message }) => message)).toEqual([
    'no release was entered after “left rail out”; if it is off, enter it',
    'the newest reading of the distance rail-6.L to pillar-low.R was taken under load: measure again after release.',
  ]);
  expect((await rule(name, `${text}  - release: all\n${spans('after', 2606)}`)).found).toEqual([]);
});
