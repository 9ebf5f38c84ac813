import { expect, test } from 'vitest';
import { chassisWith, job, jobFiles } from '../../testing/body';
import { found, said, silent } from '../testing/kit';

const name = 'procedure/kinked';
const kink = (at?: number, what = 'kink', part = 'front-rail.L') =>
  `  - observe: ${what}\n    part: ${part}\n${at === undefined ? '' : `    at: ${at}\n`}`;
const pull = '  - pull: left rail out\n    part: front-rail.L\n';
const section = (at: number) => `  - section: front-rail.L\n    at: ${at}\n`;

test('a kinked part is pulled though the maker allows bent ones only', async () => {
  await found(
    name,
    jobFiles(
      job(`
  - observe: kink
    part: front-rail.L
    at: 2800
  - pull: left rail out
    part: front-rail.L
#         ^^^^^^^^^^^^ error: procedure/kinked front-rail.L is pulled with a kink in it at 2800 mm; the maker allows straightening only where it is bent (manual 31)
`),
    ),
  );
});

test('a buckle counts, its place known or not; a crack is another matter', async () => {
  expect(await said(name, jobFiles(job(kink(undefined, 'buckle') + pull)))).toHaveLength(1);
  await silent(name, jobFiles(job(kink(2800, 'crack') + pull)));
});

test('seen while it is pulled it counts, until the part is off the pull', async () => {
  const letOff = '  - release: front-rail.L\n';
  expect(await said(name, jobFiles(job(pull + kink(2800) + letOff)))).toHaveLength(1);
  await silent(name, jobFiles(job(pull + letOff + kink(2800))));
  // of another part's release
  const both = `${pull}  - pull: sill\n    part: sill.R\n  - release: sill.R\n`;
  expect(await said(name, jobFiles(job(both + kink(2800))))).toHaveLength(1);
});

test('two cuts renew the metal between them, also where a part runs past the base', async () => {
  const sill = '  - pull: left sill out\n    part: sill.L\n';
  const cut = '  - section: sill.L\n    at: [-100, 300]\n';
  const seen = (at: number) => kink(at, 'kink', 'sill.L');
  await silent(name, jobFiles(job(seen(200) + sill + cut)));
  for (const at of [-200, -100, 300, 400])
    expect(await said(name, jobFiles(job(seen(at) + sill + cut)))).toHaveLength(1);
});

test('one cut of such a part renews the side that the file names', async () => {
  const sill = '  - pull: left sill out\n    part: sill.L\n';
  const cut = (beyond: string) => `  - section: sill.L\n    at: 0\n    beyond: ${beyond}\n`;
  for (const [at, beyond, left] of [
    [200, 'high', 0],
    [200, 'low', 1],
    [-200, 'low', 0],
    [-200, 'high', 1],
  ] as const)
    expect(await said(name, jobFiles(job(kink(at, 'kink', 'sill.L') + sill + cut(beyond))))).toHaveLength(
      left,
    );
  // where the way from the base is known, that decides
  const rail = `${kink(2500)}${pull}  - section: front-rail.L\n    at: 2600\n    beyond: low\n`;
  expect(await said(name, jobFiles(job(rail)))).toHaveLength(1);
});

test('seen only after the pull, on the other side, or where the maker allows everything', async () => {
  await silent(name, jobFiles(job(`${pull}  - release: all\n${kink(2800)}`)));
  await silent(name, jobFiles(job(kink(2800, 'kink', 'front-rail.R') + pull)));
  const freely = chassisWith({ 'front-rail': '{ sided: true, steel: mild, straighten: freely }' });
  await silent(name, jobFiles(job(kink(2800) + pull), freely));
});

test('each pull of the kinked part is one finding', async () => {
  expect(await said(name, jobFiles(job(kink(2800) + pull + pull)))).toHaveLength(2);
});

test('replaced, before the pull or since', async () => {
  await silent(name, jobFiles(job(`${kink(2800)}  - replace: front-rail.L\n${pull}`)));
  await silent(name, jobFiles(job(`${kink(2800)}${pull}  - replace: front-rail.L`)));
});

test('cut away, before the pull or since: the cut is on the base’s side of the kink', async () => {
  await silent(name, jobFiles(job(kink(2800) + section(2600) + pull)));
  await silent(name, jobFiles(job(kink(2800) + pull + section(2600))));
});

test('not cut away: the cut lies beyond the kink or at it, or the place of the kink is not known', async () => {
  for (const text of [
    kink(2500) + section(2600) + pull,
    kink(2600) + section(2600) + pull,
    kink() + section(2600) + pull,
    section(2600) + kink(2800) + pull,
  ])
    expect(await said(name, jobFiles(job(text)))).toHaveLength(1);
});

test('where a part runs past the base on both sides, no cut is taken to renew anything', async () => {
  const sill = (at: number) =>
    `${kink(at, 'kink', 'sill.L')}  - section: sill.L\n    at: 0\n  - pull: left sill out\n    part: sill.L\n`;
  expect(await said(name, jobFiles(job(sill(200))))).toHaveLength(1);
  expect(await said(name, jobFiles(job(sill(-200))))).toHaveLength(1);
});
