import { expect, test } from 'vitest';
import { everything, jobFiles, measure, off, railIds, sound } from '../../testing/body';
import { found, silent } from '../testing/kit';
import { against, signedJob, stateOf } from '../testing/sign-off';

const name = 'sign-off/unmeasured';
const finished = measure('finished');
const without = (...ids: string[]) => everything.filter((id) => !ids.includes(id));
const remaining = async (timeline: string, head?: string) =>
  (await stateOf(signedJob(timeline, '', '', head))).remaining;
const rail = railIds('L').map((id) => `${id}: not measured since the last work`);

test('never measured, unreachable, and worked on since', async () => {
  await found(
    name,
    jobFiles(
      signedJob(
        `${measure('finished', sound, without('pillar-low.L', 'pillar-high.L'))}
      pillar-high.L: unreachable
  - section: front-rail.L
    at: 2500
`,
        '#<^^^^^^ error: sign-off/unmeasured signed off without measuring. Never measured: pillar-low.L. Unreachable: pillar-high.L. Worked on since measured: rail-root-lower.L, rail-second-lower.L, rail-middle-lower.L, rail-front-lower.L and rail-tip-lower.L. A sign-off covers dimensions only.\n',
      ),
    ),
  );
});

test('everything measured after the last work', async () => {
  await silent(
    name,
    jobFiles(signedJob(`${measure('as received')}\n  - section: front-rail.L\n    at: 2500\n${finished}`)),
  );
});

const works = {
  pull: '  - pull: out\n    part: front-rail.L\n  - relieve: front-rail.L\n  - release: all\n',
  'pull of another part, hooked here':
    '  - pull: out\n    part: sill.L\n    hook: rail-second-lower.L\n    direction: [0, 1, 0]\n  - relieve: all\n  - release: all\n',
  section: '  - section: front-rail.L\n    at: 2500\n',
  replace: '  - replace: front-rail.L\n',
  heat: '  - heat: front-rail.L\n',
  dressing: '  - relieve: front-rail.L\n',
  join: '  - join: front-rail.L\n',
  'join of another part to it': '  - join: centre-pillar.L\n    to: [front-rail]\n',
};

test.each(Object.entries(works))('%s after the last measure', async (_, work) => {
  const found = await remaining(`${finished}\n${work}`);
  expect(found.filter((each) => each.startsWith('rail') && each.includes('not measured'))).toEqual(rail);
});

test('work elsewhere, notes and observations do not outdate a reading', async () => {
  for (const other of [
    '  - note: waiting\n',
    '  - observe: gap\n    part: front-rail.L\n    answered: { by: rk, date: 2026-03-04, how: as on the other side }\n',
    '  - relieve: all\n',
  ])
    expect(await remaining(`${finished}\n${other}`)).toEqual([]);
});

test('a reading under load does not count', async () => {
  const peak = `  - pull: out\n    part: front-rail.L\n${measure('under load')}\n  - relieve: all\n  - release: all\n`;
  expect(await remaining(`${finished}\n${peak}`)).toEqual(rail);
  const only = measure('as received', sound, without('rail-tip-lower.L'));
  expect(
    await remaining(`${only}\n${peak}${measure('finished', sound, without('rail-tip-lower.L'))}`),
  ).toEqual(['rail-tip-lower.L: measured under load only']);
});

test('a newer reading in a stage that cannot be used is none', async () => {
  const inches = measure('again', (_, [x, y, z]) => [x / 25.4 - x, y / 25.4 - y, z / 25.4 - z]);
  expect(await against(signedJob(`${finished}\n${inches}`))).toEqual([`error ${name}`]);
  expect(await remaining(`${finished}\n${inches}\n${measure('once more')}`)).toEqual([]);
});

test('a scope that holds nothing to judge does not pass', async () => {
  expect(await remaining(finished, 'scope: []\n')).toEqual(['nothing is in the scope']);
  expect(await remaining(finished, 'scope: [front-rail.L, roof]\n')).toEqual([
    'roof: no points to judge it by',
  ]);
});

test('without a scope, what was read or worked on', async () => {
  const some = measure(
    'as received',
    sound,
    without('sill-front.L', 'sill-front.R', 'sill-rear.L', 'sill-rear.R'),
  );
  expect(await remaining(some, '')).toEqual([]);
  expect(await remaining(`${some}\n  - replace: sill.L\n`, '')).toEqual([
    'sill-front.L: not measured',
    'sill-rear.L: not measured',
    'sill.L: replaced and not joined',
  ]);
});

test('a bolt draws nothing along', async () => {
  const bolted = '  - join: centre-pillar.L\n    with: bolted\n    to: [front-rail]\n';
  const found = await remaining(`${finished}\n${bolted}`);
  expect(found.filter((each) => each.startsWith('rail'))).toEqual([]);
  expect(found.filter((each) => each.startsWith('pillar'))).toHaveLength(2);
  const both = bolted.replace('bolted', '[bolted, bonded]');
  expect((await remaining(`${finished}\n${both}`)).filter((each) => each.startsWith('rail'))).toEqual(rail);
});

test('what was outside when it was last read is said', async () => {
  const out = measure('as received', off({ 'rail-tip-lower.L': [0, 12, 0] }));
  const work = '  - heat: front-rail.L\n';
  expect((await remaining(`${out}\n${work}`)).filter((each) => each.includes('outside'))).toEqual([
    'rail-tip-lower.L: not measured since the last work, outside when last read',
  ]);
  await found(
    name,
    jobFiles(
      signedJob(
        `${out}\n${work}`,
        '#<^^^^^^ error: sign-off/unmeasured signed off without measuring. Worked on since measured: rail-root-lower.L, rail-second-lower.L, rail-middle-lower.L, rail-front-lower.L and rail-tip-lower.L. Outside when last read: rail-tip-lower.L. A sign-off covers dimensions only.\n',
      ),
    ),
  );
});
