import { expect, test } from 'vitest';
import { chassisWith, job, jobFiles } from '../../testing/body';
import { found, said, silent } from '../testing/kit';

const name = 'procedure/unrecorded';
const bare = chassisWith({
  'front-rail': '{ sided: true, steel: high-strength }',
  'centre-pillar': '{ sided: true, along: height, steel: press-hardened }',
});

test('pulled, heated or cut with nothing recorded: one for a part and for what is missing', async () => {
  await found(
    name,
    jobFiles(
      job(`
  - pull: left rail out
    part: front-rail.L
#         ^^^^^^^^^^^^ warning: procedure/unrecorded front-rail.L is pulled and heated, and whether the maker allows it to be straightened is not recorded
  - heat: front-rail.L
    to: 100 C
  - pull: left rail again
    part: front-rail.L
  - release: all
  - section: front-rail.L
#            ^^^^^^^^^^^^ warning: procedure/unrecorded front-rail.L is cut, and where the maker allows a cut is not recorded
    at: 2500
`),
      bare,
    ),
  );
});

test('everything recorded', async () => {
  await silent(
    name,
    jobFiles(
      job(
        '  - pull: left rail out\n    part: front-rail.L\n  - heat: front-rail.L\n  - section: front-rail.L\n    at: 2500',
      ),
    ),
  );
});

test('press-hardened and pulled is an error of its own, heated is not', async () => {
  await silent(name, jobFiles(job('  - pull: left pillar out\n    part: centre-pillar.L'), bare));
  expect(await said(name, jobFiles(job('  - heat: centre-pillar.L\n    to: 100 C'), bare))).toHaveLength(1);
});

test('replaced since', async () => {
  await silent(
    name,
    jobFiles(
      job(
        '  - pull: left rail out\n    part: front-rail.L\n  - section: front-rail.L\n    at: 2500\n  - replace: front-rail.L',
      ),
      bare,
    ),
  );
});
