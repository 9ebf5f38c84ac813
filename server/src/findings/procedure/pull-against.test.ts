import { expect, test } from 'vitest';
import { control, job, jobFiles, measure, off } from '../../testing/body';
import { found, said, silent } from '../testing/kit';

const name = 'procedure/pull-against';
const tipIn = measure('as received', off({ 'rail-tip-lower.L': [0, -8, 0] }));
const pull = (direction: string, hook = 'rail-tip-lower.L') =>
  `  - pull: left rail\n    part: front-rail.L\n    hook: ${hook}\n    direction: ${direction}\n`;

test('the chain pulls farther in what is in too far', async () => {
  await found(
    name,
    jobFiles(
      job(`
${tipIn}
  - pull: left rail out
    part: front-rail.L
    chains:
      - { hook: rail-tip-lower.L, direction: [0, -3, 0] }
#               ^^^^^^^^^^^^^^^^ warning: procedure/pull-against the chain at rail-tip-lower.L pulls right (inboard), but in "as received" the point still has to go 8.0 mm left (outboard): along the chain, that is 8.0 mm in the opposite direction
`),
    ),
  );
});

test('the right way, or square to what is needed', async () => {
  for (const direction of ['[0, 1, 0]', '[0.5, 1, -0.3]', '[1, 0, 0]', '[0, 0, -1]'])
    await silent(name, jobFiles(job(`${tipIn}\n${pull(direction)}`)));
});

test('within what the reading leaves in doubt nothing is said', async () => {
  const little = (mm: number) => measure('as received', off({ 'rail-tip-lower.L': [0, -mm, 0] }));
  await silent(name, jobFiles(job(`${little(0.3)}\n${pull('[0, -1, 0]')}`)));
  expect(await said(name, jobFiles(job(`${little(3)}\n${pull('[0, -1, 0]')}`)))).toHaveLength(1);
});

test('the newest released reading before the pull decides', async () => {
  const over = measure('after first pull', off({ 'rail-tip-lower.L': [0, 5, 0] }));
  await silent(name, jobFiles(job(`${tipIn}\n${over}\n${pull('[0, -1, 0]')}`)));
  // over the mark under load only: it springs back, and the second chain may pull on
  const peak = measure('under load', off({ 'rail-tip-lower.L': [0, 5, 0] }), ['rail-tip-lower.L']);
  await silent(name, jobFiles(job(`${tipIn}\n${pull('[0, 1, 0]')}${peak}\n${pull('[0, 1, 0]')}`)));
});

test('a hook that was never read, or not on a trusted alignment', async () => {
  await silent(name, jobFiles(job(pull('[0, -1, 0]'))));
  const unaligned = measure('as received', off({ 'rail-tip-lower.L': [0, -8, 0] }), [
    control[0],
    'rail-tip-lower.L',
  ]);
  await silent(name, jobFiles(job(`${unaligned}\n${pull('[0, -1, 0]')}`)));
});
