import { expect, test } from 'vitest';
import { job, jobFiles } from '../../testing/body';
import { found, said, silent } from '../testing/kit';

const name = 'procedure/not-relieved';
const pull = (part = 'front-rail.L') => `  - pull: out\n    part: ${part}\n`;

test('released without being relieved', async () => {
  await found(
    name,
    jobFiles(
      job(`
  - pull: left rail out
#   ^^^^ warning: procedure/not-relieved front-rail.L is pulled and released, but stress was not relieved in between
    part: front-rail.L
  - release: all
`),
    ),
  );
});

test('relieved by its name, by both sides’ name or with everything', async () => {
  for (const parts of ['front-rail.L', '[front-rail.L, sill.L]', 'front-rail', 'all'])
    await silent(name, jobFiles(job(`${pull()}  - relieve: ${parts}\n  - release: all`)));
});

test('not released yet', async () => {
  await silent(name, jobFiles(job(pull())));
});

test('relieved too early, too late or elsewhere', async () => {
  for (const timeline of [
    `  - relieve: front-rail.L\n${pull()}  - release: all`,
    `${pull()}  - release: all\n  - relieve: front-rail.L`,
    `${pull()}  - relieve: front-rail.R\n  - release: all`,
  ])
    expect(await said(name, jobFiles(job(timeline)))).toHaveLength(1);
});

test('of two pulls the one that was relieved is not meant', async () => {
  const found = await said(
    name,
    jobFiles(job(`${pull()}${pull('sill.L')}  - relieve: front-rail.L\n  - release: all`)),
  );
  expect(found.map(({ message }) => message.split(' ')[0])).toEqual(['sill.L']);
  // the second pull began after the first was relieved
  expect(
    await said(name, jobFiles(job(`${pull()}  - relieve: all\n${pull()}  - release: all`))),
  ).toHaveLength(1);
});

test('replaced since', async () => {
  await silent(name, jobFiles(job(`${pull()}  - release: all\n  - replace: front-rail.L`)));
});
