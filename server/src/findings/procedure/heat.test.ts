import { expect, test } from 'vitest';
import { chassisWith, job, jobFiles } from '../../testing/body';
import { found, said, silent } from '../testing/kit';

const name = 'procedure/heat';

test('heat on a part that must have none, over the limit, and too long', async () => {
  await found(
    name,
    jobFiles(
      job(`
  - heat: front-rail.L
#         ^^^^^^^^^^^^ error: procedure/heat front-rail.L is heated to 350 °C for 120 s, but the maker allows no heat on it (manual 31)
    to: 350 C
    for: 2 min
  - heat: centre-pillar.L
#         ^^^^^^^^^^^^^^^ error: procedure/heat centre-pillar.L is heated to 210 °C for 60 s; the maker allows 200 °C for 90 s at most
    to: 210 C
    for: 60 s
  - heat: centre-pillar.R
#         ^^^^^^^^^^^^^^^ error: procedure/heat the maker allows 200 °C for 90 s at most
    to: 200 C
    for: 91 s
`),
    ),
  );
});

test('within the limit, its ends included', async () => {
  await silent(
    name,
    jobFiles(
      job(
        '  - heat: centre-pillar.L\n    to: 200 C\n    for: 90 s\n  - heat: sill.L\n    to: 200 C\n    for: 20 min',
      ),
    ),
  );
});

test('how hot it was is not written: a warning', async () => {
  await found(
    name,
    jobFiles(
      job(`
  - heat: centre-pillar.L
#         ^^^^^^^^^^^^^^^ warning: procedure/heat centre-pillar.L is heated without saying how hot; the maker allows 200 °C for 90 s at most
  - heat: centre-pillar.R
#         ^^^^^^^^^^^^^^^ warning: procedure/heat without saying how long
    to: 150 C
`),
    ),
  );
});

test('no limit recorded: a warning where the steel is not mild', async () => {
  const chassis = chassisWith({
    sill: '{ sided: true, steel: high-strength, straighten: freely }',
    'centre-pillar': '{ sided: true, along: height, straighten: freely }',
  });
  await found(
    name,
    jobFiles(
      job(`
  - heat: sill.L
#         ^^^^^^ warning: procedure/heat the maker's limit is not recorded; high-strength steel may lose its strength
    to: 180 C
  - heat: centre-pillar.L
#         ^^^^^^^^^^^^^^^ warning: procedure/heat its steel is not recorded either
    to: 180 C
  - heat: floor
    to: 600 C
`),
      chassis,
    ),
  );
});

test('replaced since: the heated metal is gone; replaced before is not enough', async () => {
  const heat = '  - heat: front-rail.L\n    to: 350 C\n';
  await silent(name, jobFiles(job(`${heat}  - replace: front-rail.L`)));
  expect(await said(name, jobFiles(job(`  - replace: front-rail.L\n${heat}`)))).toHaveLength(1);
});
