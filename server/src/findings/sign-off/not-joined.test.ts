import { expect, test } from 'vitest';
import { chassisWith, jobFiles, measure, railIds } from '../../testing/body';
import { found, silent } from '../testing/kit';
import { against, signedJob, stateOf } from '../testing/sign-off';

const name = 'sign-off/not-joined';
const finished = `${measure('finished')}\n`;
const cut = '  - section: front-rail.L\n    at: 2500\n';

test('replaced or cut, and no join', async () => {
  await found(
    name,
    jobFiles(
      signedJob(
        `${cut}  - replace: centre-pillar.R\n${finished}`,
        '#<^^^^^^ error: sign-off/not-joined signed off with new metal that was not joined: front-rail.L and centre-pillar.R. Write its `join`, and measure after it. A sign-off covers dimensions only.\n',
      ),
    ),
  );
});

test('joined after it, both sides by one name, one of several, or replaced again since', async () => {
  for (const work of [
    `${cut}  - join: front-rail.L\n`,
    `${cut}  - join: front-rail\n    with: [welded, bonded]\n    to: [floor]\n`,
    '  - replace: centre-pillar.L\n  - replace: centre-pillar.R\n  - join: [front-rail, centre-pillar]\n',
    `${cut}  - replace: front-rail.L\n  - join: front-rail.L\n`,
  ])
    await silent(name, jobFiles(signedJob(work + finished)));
});

test('joined before it, on the other side, or only an earlier cut', async () => {
  for (const work of [
    `  - join: front-rail.L\n${cut}`,
    `${cut}  - join: front-rail.R\n`,
    `${cut}  - join: front-rail.L\n  - section: front-rail.L\n    at: 2600\n`,
  ])
    expect(await against(signedJob(work + finished))).toContain(`error ${name}`);
});

test('measured in the clamps is not measured', async () => {
  const { remaining } = await stateOf(signedJob(`${cut}${finished}  - join: front-rail.L\n`));
  expect(remaining).toEqual(railIds('L').map((id) => `${id}: not measured since the last work`));
});

test('what is only bolted needs none when it was replaced; a cut always does', async () => {
  const bolted = chassisWith({
    'centre-pillar': '{ sided: true, along: height, steel: mild, attached: bolted }',
  });
  const replaced = '  - replace: centre-pillar.L\n';
  await silent(name, jobFiles(signedJob(replaced + finished), bolted));
  const both = chassisWith({
    'centre-pillar': '{ sided: true, along: height, steel: mild, attached: [bolted, bonded] }',
  });
  for (const [work, chassis] of [
    [replaced, both],
    ['  - section: centre-pillar.L\n    at: 800\n', bolted],
  ] as const)
    await found(
      name,
      jobFiles(
        signedJob(
          work + finished,
          '#<^^^^^^ error: sign-off/not-joined signed off with new metal that was not joined: centre-pillar.L\n',
        ),
        chassis,
      ),
    );
});

test('signed earlier, a section is a cut and its join, and a replacement warns', async () => {
  const earlier = (work: string) => signedJob(work + finished).replace('  judged-by: 0.2\n', '');
  expect(await against(earlier(cut))).toEqual([]);
  expect(await against(earlier('  - replace: front-rail.L\n'))).toEqual([`warning ${name}`]);
  expect((await stateOf(earlier('  - replace: front-rail.L\n'))).passes).toBe(true);
});
