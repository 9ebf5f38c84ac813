import { expect, test } from 'vitest';
import { chassisWith, job, jobFiles, rule } from '../testing/body';
import { found, silent } from '../testing/kit';

const name = 'procedure/unrecorded';
const bare = chassisWith({
  rail: '{ sided: true, steel: high-strength }',
  pillar: '{ sided: true, along: height, steel: press-hardened }',
});

test('pulled, heated or cut with nothing recorded: one for a part and for what is missing', async () => {
  await found(
    name,
    jobFiles(
      job(`
  - pull: left rail out
    part: rail.L
#         ^^^^^^ warning: procedure/unrecorded rail.L is pulled and heated, and whether the maker allows it to be straightened is not recorded
  - heat: rail.L
    to: 100 C
  - pull: left rail again
    part: rail.L
  - release: all
  - section: rail.L
#            ^^^^^^ warning: procedure/unrecorded rail.L is cut, and where the maker allows a cut is not recorded
    at: 1700
`),
      bare,
    ),
  );
});

test('everything recorded', async () => {
  await silent(
    name,
    jobFiles(
      job('  - pull: left rail out\n    part: rail.L\n  - heat: rail.L\n  - section: rail.L\n    at: 1700'),
    ),
  );
});

test('press-hardened and pulled is an error of its own, heated is not', async () => {
  await silent(name, jobFiles(job('  - pull: left pillar out\n    part: pillar.L'), bare));
  expect((await rule(name, job('  - heat: pillar.L\n    to: 100 C'), bare)).found).toHaveLength(1);
});

test('replaced since', async () => {
  await silent(
    name,
    jobFiles(
      job(
        '  - pull: left rail out\n    part: rail.L\n  - section: rail.L\n    at: 1700\n  - replace: rail.L',
      ),
      bare,
    ),
  );
});
