import { expect, test } from 'vitest';
import { bentFrom, jobFiles, measure } from '../../testing/body';
import { found, silent } from '../testing/kit';
import { against, signedJob, stateOf } from '../testing/sign-off';

const name = 'sign-off/procedure';
const finished = `${measure('finished')}\n`;
const done = '  - relieve: all\n  - release: all\n';
const pull = (part: string) => `  - pull: out\n    part: ${part}\n${done}`;

test('work that the maker forbids stands in the car', async () => {
  await found(
    name,
    jobFiles(
      signedJob(
        `${pull('centre-pillar.L')}  - heat: front-rail.L\n${finished}`,
        "#<^^^^^^ error: sign-off/procedure signed off with work against the maker's procedure in front-rail.L (procedure/heat) and centre-pillar.L (procedure/never-straighten). A sign-off covers dimensions only.\n",
      ),
    ),
  );
});

const joined = '  - join: front-rail.L\n';
const breaches = {
  'procedure/never-straighten': pull('centre-pillar.L'),
  'procedure/kinked': `  - observe: kink\n    part: front-rail.L\n${pull('front-rail.L')}`,
  'procedure/section-band': `  - section: front-rail.L\n    at: 2900\n${joined}`,
  'procedure/section-in-straightened': `${measure('as received', bentFrom(2200))}\n${pull('front-rail.L')}  - section: front-rail.L\n    at: 2500\n${joined}`,
  'procedure/heat': '  - heat: front-rail.L\n',
};

test.each(Object.entries(breaches))('%s blocks the sign-off', async (rule, work) => {
  const state = await stateOf(signedJob(work + finished));
  const seen = work.includes('observe') ? ['front-rail.L: kink not answered'] : [];
  expect(state.remaining).toEqual([expect.stringMatching(new RegExp(`: ${rule}$`)), ...seen]);
  expect(await against(signedJob(work + finished))).toEqual([
    ...(seen.length > 0 ? ['error sign-off/open-damage'] : []),
    `error ${name}`,
  ]);
});

test('a warning of theirs, or a breach renewed since, does not', async () => {
  // no bend known, and a limit on heat without how hot it was
  const warned = `${pull('front-rail.L')}  - section: front-rail.L\n    at: 2500\n  - heat: centre-pillar.L\n`;
  await silent(name, jobFiles(signedJob(warned + finished)));
  await silent(
    name,
    jobFiles(signedJob(`${pull('centre-pillar.L')}  - replace: centre-pillar.L\n${finished}`)),
  );
});
