import { expect, test } from 'vitest';
import { job, jobFiles } from '../../testing/body';
import { found, said, silent } from '../testing/kit';
import { signed } from '../testing/sign-off';

const name = 'reading/order';
const measures = (...dates: (string | null)[]): string =>
  job(
    `\n${dates.map((at, i) => `  - measure: stage ${i + 1}\n${at === null ? '' : `    at: ${at}\n`}`).join('')}`,
  );

test('a measure dated before one above it', async () => {
  await found(
    name,
    jobFiles(
      job(`
  - measure: as received
    at: 2026-03-03T09:00
  - note: waited for parts
  - measure: finished
#   ^^^^^^^ warning: reading/order “finished” is dated 2026-03-02T16:30, before “as received” above it (2026-03-03T09:00)
    at: 2026-03-02T16:30
`),
    ),
  );
});

test('it is held against the latest above it, and each is told', async () => {
  const found = await said(name, jobFiles(measures('2026-03-03', '2026-03-01', '2026-03-02', '2026-03-04')));
  expect(found.map(({ line }) => line)).toHaveLength(2);
});

test.each([
  ['in order, or on the same day', ['2026-03-02', null, '2026-03-02', '2026-03-03T08:00']],
  [
    'a day alone says nothing of the hour',
    ['2026-03-02T16:00', '2026-03-02', '2026-03-02T09:00'].slice(0, 2),
  ],
  ['hours of different zones', ['2026-03-02T10:00+02:00', '2026-03-02T08:30Z']],
  ['an hour with a zone and one without', ['2026-03-02T23:00Z', '2026-03-02T09:00']],
])('%s', async (_, dates) => silent(name, jobFiles(measures(...dates))));

test.each([
  [['2026-03-02T16:00', '2026-03-02T09:00']],
  [['2026-03-02T08:00Z', '2026-03-02T09:30+02:00']],
  [['2026-03-02', '2026-03-01T23:00']],
])('%s is out of order', async (dates) =>
  expect(await said(name, jobFiles(measures(...dates)))).toHaveLength(1),
);

test('a signature from before the last measure', async () => {
  const signedJob = (at: string) => jobFiles(job(`\n  - measure: finished\n    at: ${at}\n`, '', signed()));
  await found(
    name,
    jobFiles(
      job(
        '\n  - measure: finished\n    at: 2026-03-06T08:00\n',
        '',
        signed(
          '#<^^^^^^ warning: reading/order signed on 2026-03-05, before “finished” was measured (2026-03-06T08:00)\n',
        ),
      ),
    ),
  );
  await silent(name, signedJob('2026-03-05T16:00'));
  await silent(name, signedJob('2026-03-04'));
});
