import { expect, test } from 'vitest';
import { chassisWith, job, jobFiles, measure } from '../../testing/body';
import { found, said, silent } from '../testing/kit';

const name = 'procedure/never-straighten';

test('a pull of a part that the maker says to replace only', async () => {
  await found(
    name,
    jobFiles(
      job(`
${measure('as received')}
  - pull: left pillar out
    part: centre-pillar.L
#         ^^^^^^^^^^^^^^^ error: procedure/never-straighten centre-pillar.L is pulled, but the maker allows no straightening of it
    hook: pillar-low.L
    direction: [0, 1, 0]
  - release: all
`),
    ),
  );
});

test('a hook on such a part loads it, whatever the pull is about', async () => {
  await found(
    name,
    jobFiles(
      job(`
  - pull: left sill out
    part: sill.L
    chains:
      - { hook: sill-front.L, direction: [0, 1, 0] }
      - { hook: pillar-low.L, direction: [0, 1, 0] }
#               ^^^^^^^^^^^^ error: procedure/never-straighten centre-pillar.L is pulled
`),
    ),
  );
});

test('press-hardened steel with nothing recorded is taken to be replace only', async () => {
  const text = job(`
  - pull: left pillar out
    part: centre-pillar.L
#         ^^^^^^^^^^^^^^^ error: procedure/never-straighten it is press-hardened, and no procedure for straightening it is recorded
`);
  await found(
    name,
    jobFiles(text, chassisWith({ 'centre-pillar': '{ sided: true, along: height, steel: press-hardened }' })),
  );
});

test.each(['minor', 'freely'])('not where the maker says %s, whatever the steel', async (straighten) => {
  const pillar = `{ sided: true, along: height, steel: press-hardened, straighten: ${straighten} }`;
  await silent(
    name,
    jobFiles(
      job('  - pull: left pillar out\n    part: centre-pillar.L'),
      chassisWith({ 'centre-pillar': pillar }),
    ),
  );
});

test('a replacement since settles it, one before does not, nor a section, nor one on the other side', async () => {
  const pull = '  - pull: left pillar out\n    part: centre-pillar.L\n';
  await silent(name, jobFiles(job(`${pull}  - replace: centre-pillar.L`)));
  for (const other of [
    `  - replace: centre-pillar.L\n${pull}`,
    `${pull}  - section: centre-pillar.L\n    at: 700`,
    `${pull}  - replace: centre-pillar.R`,
  ])
    expect(await said(name, jobFiles(job(other)))).toHaveLength(1);
});

test('a part that is only held is not pulled', async () => {
  await silent(
    name,
    jobFiles(
      job('  - pull: left rail out\n    part: front-rail.L\n    hold: [{ part: centre-pillar.L, at: 700 }]'),
    ),
  );
});
