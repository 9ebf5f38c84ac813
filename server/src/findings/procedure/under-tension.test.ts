import { expect, test } from 'vitest';
import { control, job, jobFiles, measure } from '../../testing/body';
import { found, said, silent } from '../testing/kit';

const name = 'procedure/under-tension';
const pull = '  - pull: left rail out\n    part: front-rail.L\n';
const peak = measure('under load', undefined, ['rail-front-lower.L', 'rail-tip-lower.L']);

test('the newest reading is a peak: one for the points of a part', async () => {
  await found(
    name,
    jobFiles(
      job(`
${measure('as received')}
  - pull: left rail out
#   ^^^^ information: procedure/under-tension no release was entered after “left rail out”; if it is off, enter it
    part: front-rail.L
  - measure: under load
    readings:
      rail-front-lower.L: [2690, 455, 205]
#     ^^^^^^^^^^^^^^^^^^ information: procedure/under-tension the newest readings of rail-front-lower.L and rail-tip-lower.L were taken under load
      rail-tip-lower.L: [3012, 453, 210]
      sill-front.L: [1050, 701, 150]
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
        `${measure('as received')}\n${pull}${peak}\n  - release: all\n${measure('after', undefined, [...control, 'rail-front-lower.L', 'rail-tip-lower.L'])}`,
      ),
    ),
  );
});

test('released, but only one of the two was measured again', async () => {
  const after = measure('after', undefined, [...control, 'rail-tip-lower.L']);
  const released = job(`${measure('as received')}\n${pull}${peak}\n  - release: all\n${after}`);
  expect((await said(name, jobFiles(released))).map(({ message }) => message)).toEqual([
    expect.stringContaining('of rail-front-lower.L was taken under load'),
  ]);
});

test('a distance counts like a point', async () => {
  const spans = (name: string, mm: number) => `  - measure: ${name}
    spans: [[rail-tip-lower.L, pillar-low.R, ${mm}]]
`;
  const text = job(`${measure('as received')}\n${spans('tram', 2922)}${pull}${spans('under load', 2920)}`);
  expect((await said(name, jobFiles(text))).map(({ message }) => message)).toEqual([
    'no release was entered after “left rail out”; if it is off, enter it',
    'the newest reading of the distance rail-tip-lower.L to pillar-low.R was taken under load: measure again after release.',
  ]);
  await silent(name, jobFiles(`${text}  - release: all\n${spans('after', 2922)}`));
});
