import { expect, test } from 'vitest';
import { jobFiles, measure } from '../../testing/body';
import { found, silent } from '../testing/kit';
import { against, signed, signedJob, stateOf } from '../testing/sign-off';

const name = 'sign-off/open-damage';
const finished = `${measure('finished')}\n`;
const joined = '  - join: [front-rail.L, centre-pillar, sill.L]\n';
const seen = (what: string, part = 'front-rail.L', rest = '') =>
  `  - observe: ${what}\n    part: ${part}\n${rest}`;
const answer = '    answered: { by: rk, date: 2026-03-04, how: dressed flat }\n';

test('a crack that nobody answered', async () => {
  await found(
    name,
    jobFiles(
      signedJob(
        `${seen('crack', 'front-rail.L', '    at: 2800\n')}${seen('buckle', 'centre-pillar.R')}${finished}`,
        '#<^^^^^^ error: sign-off/open-damage signed off with damage not answered: crack on front-rail.L at 2800 mm and buckle on centre-pillar.R. Renew that metal. Say under `answered` who decided, when and what was done about what may stay. A sign-off covers dimensions only.\n',
      ),
    ),
  );
});

test('renewed since: replaced, or cut away where its place is known', async () => {
  for (const work of [
    `${seen('crack')}  - replace: front-rail.L\n`,
    `${seen('tear', 'front-rail.L', '    at: 2800\n')}  - section: front-rail.L\n    at: 2500\n`,
    `${seen('crack', 'sill.L', '    at: 200\n')}  - section: sill.L\n    at: [-100, 300]\n`,
  ])
    await silent(name, jobFiles(signedJob(work + joined + finished)));
});

test('not renewed: before it was seen, elsewhere, or place not known', async () => {
  for (const work of [
    `  - replace: front-rail.L\n${seen('crack')}`,
    `${seen('crack')}  - replace: front-rail.R\n`,
    `${seen('crack')}  - section: front-rail.L\n    at: 2500\n`,
    `${seen('crack', 'front-rail.L', '    at: 2300\n')}  - section: front-rail.L\n    at: 2500\n`,
  ])
    expect(await against(signedJob(work + joined + finished))).toContain(`error ${name}`);
});

test('a place that is not on the part is taken out by no cut', async () => {
  const cut = '  - section: front-rail.L\n    at: 2500\n';
  await found(
    name,
    jobFiles(
      signedJob(
        `${seen('crack', 'front-rail.L', '    at: 21000\n')}${cut}${joined}${finished}`,
        '#<^^^^^^ error: sign-off/open-damage crack on front-rail.L at 21000 mm, which is not on the part. Renew that metal.\n',
      ),
    ),
  );
  await silent(
    name,
    jobFiles(signedJob(seen('crack', 'front-rail.L', '    at: 3200\n') + cut + joined + finished)),
  );
});

test('words close a buckle, a gap and corrosion, and a kink on what may be straightened freely', async () => {
  for (const what of ['buckle', 'gap', 'corrosion'])
    await silent(name, jobFiles(signedJob(seen(what, 'front-rail.L', answer) + finished)));
  await silent(name, jobFiles(signedJob(seen('kink', 'floor', answer) + finished)));
});

test('words never close a tear or crack, nor a kink on what may not be straightened freely', async () => {
  for (const what of ['tear', 'crack', 'kink'])
    expect(await against(signedJob(seen(what, 'front-rail.L', answer) + finished))).toContain(
      `error ${name}`,
    );
  for (const what of ['tear', 'crack'])
    expect(await against(signedJob(seen(what, 'floor', answer) + finished))).toContain(`error ${name}`);
});

test('an answer has all three words', async () => {
  for (const part of ['by: rk, date: 2026-03-04', 'by: rk, how: dressed', 'date: 2026-03-04, how: dressed']) {
    const half = seen('buckle', 'front-rail.L', `    answered: { ${part} }\n`);
    expect((await stateOf(signedJob(half + finished))).openDamage).toHaveLength(1);
  }
});

test('an answer that says nothing is none', async () => {
  const empty = answer.replace('dressed flat', 'see above');
  const state = await stateOf(signedJob(seen('buckle', 'front-rail.L', empty) + finished));
  expect(state.openDamage).toMatchObject([{ answerable: true, answeredInVain: true }]);
});

test('an open job is told what remains; one signed earlier is warned, and passes', async () => {
  const work = seen('crack') + finished;
  const open = signedJob(work).replace(signed(), '');
  expect((await stateOf(open)).remaining).toEqual(['front-rail.L: crack not answered']);
  const earlier = signedJob(work).replace('  judged-by: 0.2\n', '');
  expect((await stateOf(earlier)).passes).toBe(true);
  expect(await against(earlier)).toEqual([`warning ${name}`]);
  await found(
    name,
    jobFiles(
      earlier.replace(
        'sign-off:\n',
        'sign-off:\n#<^^^^^^ warning: sign-off/open-damage signed off with damage not answered: crack on front-rail.L. Renew that metal. A sign-off covers dimensions only. (newer than this signature)\n',
      ),
    ),
  );
});
