import { expect, test } from 'vitest';
import { job, jobFiles, rule } from '../testing/body';
import { found, silent } from '../testing/kit';

const name = 'procedure/not-relieved';
const pull = (part = 'rail.L') => `  - pull: out\n    part: ${part}\n`;

test('released without being relieved', async () => {
  await found(
    name,
    jobFiles(
      job(`
  - pull: left rail out
#   ^^^^ warning: procedure/not-relieved rail.L is pulled and released, but stress was not relieved in between
    part: rail.L
  - release: all
`),
    ),
  );
});

test('relieved by its name, by both sides’ name or with everything', async () => {
  for (const parts of ['rail.L', '[rail.L, sill.L]', 'rail', 'all'])
    await silent(name, jobFiles(job(`${pull()}  - relieve: ${parts}\n  - release: all`)));
});

test('not released yet', async () => {
  await silent(name, jobFiles(job(pull())));
});

test('relieved too early, too late or elsewhere', async () => {
  for (const timeline of [
    `  - relieve: rail.L\n${pull()}  - release: all`,
    `${pull()}  - release: all\n  - relieve: rail.L`,
    `${pull()}  - relieve: rail.R\n  - release: all`,
  ])
    expect((await rule(name, job(timeline))).found).toHaveLength(1);
});

test('of two pulls the one that was relieved is not meant', async () => {
  const { found } = await rule(name, job(`${pull()}${pull('sill.L')}  - relieve: rail.L\n  - release: all`));
  expect(found.map(({ message }) => message.split(' ')[0])).toEqual(['sill.L']);
  // the second pull began after the first was relieved
  expect((await rule(name, job(`${pull()}  - relieve: all\n${pull()}  - release: all`))).found).toHaveLength(
    1,
  );
});

test('replaced since', async () => {
  await silent(name, jobFiles(job(`${pull()}  - release: all\n  - replace: rail.L`)));
});
