import { expect, test } from 'vitest';
import { chassisWith, job, jobFiles, measure } from '../../testing/body';
import { found, silent } from '../testing/kit';
import { signedJob, stateOf } from '../testing/sign-off';

const name = 'reading/scope';
const finished = `${measure('finished')}\n`;
const done = '  - relieve: all\n  - release: all\n';
const pull = (rest: string) => `  - pull: out\n${rest}${done}`;
const hooked = '    part: front-rail.L\n    hook: sill-front.L\n    direction: [0, 1, 0]\n';

test('parts worked on or damaged belong to it, and what was only hooked on too', async () => {
  await found(
    name,
    jobFiles(
      job(
        `${pull(hooked)}  - observe: buckle\n    part: centre-pillar.L\n  - heat: sill.R\n${finished}`,
        'scope: [front-rail.L]\n#       ^^^^^^^^^^^^ information: reading/scope judged although it is not in the scope: sill (both sides) (worked on); centre-pillar.L (with damage not answered)\n',
      ),
    ),
  );
});

test('a part without a point is warned of, and named', async () => {
  const roof = chassisWith({ roof: '{ steel: mild }' });
  await found(
    name,
    jobFiles(
      job(
        `  - heat: roof\n${finished}`,
        'scope: [front-rail.L]\n#       ^^^^^^^^^^^^ warning: reading/scope no point tells how it stands, and it is not in the scope: roof (worked on)\n',
      ),
      roof,
    ),
  );
});

test('named in the scope, or answered, or the part that a join was made to', async () => {
  const answered = '    answered: { by: rk, date: 2026-03-04, how: dressed flat }\n';
  for (const [head, work] of [
    ['scope: [front-rail.L, sill]\n', pull(hooked)],
    ['scope: [front-rail.L]\n', `  - observe: buckle\n    part: sill.L\n${answered}`],
    ['scope: [front-rail.L]\n', '  - join: front-rail.L\n    to: [sill]\n'],
    ['', pull(hooked)],
  ])
    await silent(name, jobFiles(job(work + finished, head)));
});

test('so a narrow scope hides nothing that was pulled; a job signed earlier is judged by its own', async () => {
  const spoilt = `${finished}${pull('    part: sill.L\n')}`;
  expect((await stateOf(signedJob(spoilt, '', '', 'scope: [front-rail.L]\n'))).remaining).toEqual([
    'sill-front.L: not measured since the last work',
    'sill-rear.L: not measured since the last work',
  ]);
  const earlier = signedJob(spoilt, '', '', 'scope: [front-rail.L]\n').replace('  judged-by: 0.2\n', '');
  expect((await stateOf(earlier)).passes).toBe(true);
  await silent(name, jobFiles(earlier));
});
