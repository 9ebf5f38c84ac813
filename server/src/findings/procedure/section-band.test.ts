import { expect, test } from 'vitest';
import { chassisWith, job, jobFiles } from '../../testing/body';
import { found, said, silent } from '../testing/kit';

const name = 'procedure/section-band';
const section = (at: number) => `  - section: front-rail.L\n    at: ${at}\n`;

test('a cut outside the band', async () => {
  await found(
    name,
    jobFiles(
      job(`
  - section: front-rail.L
#            ^^^^^^^^^^^^ error: procedure/section-band front-rail.L is cut at 2300 mm, 150 mm outside the band from 2450 to 2700 mm that the maker allows (manual 31)
    at: 2300
  - section: front-rail.R
#            ^^^^^^^^^^^^ error: procedure/section-band 100 mm outside
    at: 2800
`),
    ),
  );
});

test.each([2450, 2600, 2700])('a cut in the band, its ends included: %d', async (at) => {
  await silent(name, jobFiles(job(section(at))));
});

test('no band is recorded', async () => {
  await silent(
    name,
    jobFiles(
      job(section(2300)),
      chassisWith({ 'front-rail': '{ sided: true, steel: mild, straighten: freely }' }),
    ),
  );
});

test('the joint is gone: replaced, or cut out nearer to the base', async () => {
  await silent(name, jobFiles(job(`${section(2800)}  - replace: front-rail.L`)));
  await silent(name, jobFiles(job(section(2800) + section(2500))));
  expect(await said(name, jobFiles(job(section(2300) + section(2500))))).toHaveLength(1);
  expect(await said(name, jobFiles(job(`  - replace: front-rail.L\n${section(2800)}`)))).toHaveLength(1);
});
