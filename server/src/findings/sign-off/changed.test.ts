import { expect, test } from 'vitest';
import { chassisWith, job, jobFiles, measure } from '../../testing/body';
import { found, silent } from '../testing/kit';
import { against, filesOf, sealed, sealsToBe, stateOf } from '../testing/sign-off';

const name = 'sign-off/changed';
const head = 'scope: [front-rail.L, centre-pillar]\n';
const text = sealed(job(measure('finished'), head, sealsToBe()));

test('what was signed and stands as it was', async () => {
  await silent('sign-off/', jobFiles(text));
  expect(await stateOf(text)).toMatchObject({ passes: true, readingsChanged: false, chassisChanged: false });
});

test('a figure of the job: the seal of the readings', async () => {
  const changed = text.replace(
    'rail-root-lower.L: [1760, 441, 188]',
    'rail-root-lower.L: [1760, 441.1, 188]',
  );
  const marked = changed.replace(
    /(readings: seal1-\w+\n)/,
    `$1#           ${'^'.repeat(22)} error: ${name} what was judged is no longer what was signed\n`,
  );
  expect(changed).not.toBe(text);
  await found(name, jobFiles(marked));
  expect((await stateOf(changed)).remaining).toEqual(['the job is no longer what was signed']);
});

test('a figure of the sheet: the seal of the chassis', async () => {
  const chassis = chassisWith().replace('[1760, 441, 188]', '[1760, 441.1, 188]');
  const marked = text.replace(
    /(chassis: seal1-\w+\n)/,
    `$1#          ${'^'.repeat(22)} error: ${name} what this job uses of body.chassis.yaml is no longer what was signed\n`,
  );
  await found(name, jobFiles(marked, chassis));
  await silent('sign-off/chassis-changed', jobFiles(marked, chassis));
});

test('a remark, a note or an unused point is no change', async () => {
  const noted = text.replace('timeline:\n', 'order: W-9    # late\ntimeline:\n  - note: waiting\n');
  const chassis = `${chassisWith()}  hatch: { centre: [-1900, 0, 700] }    # nobody reads it\n`;
  await silent('sign-off/', jobFiles(noted, chassis));
});

test('the decision rule in force is a part of it', async () => {
  expect(await against(text, 'guarded')).toEqual([`error ${name}`]);
  const guarded = sealed(job(measure('finished'), head, sealsToBe()), chassisWith(), 'guarded');
  await silent('sign-off/', filesOf(guarded, 'guarded'));
});

test('a signature that was made to look older is still held to its seals', async () => {
  const older = text.replace('  judged-by: 0.2\n', '');
  expect(await against(older)).toEqual([`error ${name}`]);
});
