import { expect, test } from 'vitest';
import { chassisWith, job, jobFiles, rule } from '../testing/body';
import { found, silent } from '../testing/kit';

const name = 'procedure/section-band';
const section = (at: number) => `  - section: rail.L\n    at: ${at}\n`;

test('a cut outside the band', async () => {
  await found(
    name,
    jobFiles(
      job(`
  - section: rail.L
#            ^^^^^^ error: procedure/section-band rail.L is cut at 1250 mm, 150 mm outside the band from 1400 to 2000 mm that the maker allows (manual 31)
    at: 1250
  - section: rail.R
#            ^^^^^^ error: procedure/section-band 100 mm outside
    at: 2100
`),
    ),
  );
});

test.each([1400, 1700, 2000])('a cut in the band, its ends included: %d', async (at) => {
  await silent(name, jobFiles(job(section(at))));
});

test('no band is recorded', async () => {
  await silent(
    name,
    jobFiles(job(section(1250)), chassisWith({ rail: '{ sided: true, steel: mild, straighten: freely }' })),
  );
});

test('the joint is gone: replaced, or cut out nearer to the base', async () => {
  await silent(name, jobFiles(job(`${section(2100)}  - replace: rail.L`)));
  await silent(name, jobFiles(job(section(2100) + section(1700))));
  expect((await rule(name, job(section(1250) + section(1700)))).found).toHaveLength(1);
  expect((await rule(name, job(`  - replace: rail.L\n${section(2100)}`))).found).toHaveLength(1);
});
