import { expect, test } from 'vitest';
import { jobFiles, measure } from '../../testing/body';
import { found, silent } from '../testing/kit';
import { against, signedJob, stateOf } from '../testing/sign-off';

const finished = `${measure('finished')}\n`;
const pull = (part = 'front-rail.L') => `  - pull: out\n    part: ${part}\n`;

test('a pull was never released: of its points that alone is said', async () => {
  const text = signedJob(
    `${finished}${pull()}${measure('under load')}`,
    '#<^^^^^^ error: sign-off/tension signed off with front-rail.L still under tension: release, then measure. A sign-off covers dimensions only.\n',
  );
  await found('sign-off/tension', jobFiles(text));
  expect(await against(text)).toEqual(['error sign-off/tension']);
});

test('released and measured', async () => {
  const text = signedJob(`${pull()}  - relieve: all\n  - release: all\n${finished}`);
  await silent('sign-off/tension', jobFiles(text));
  expect(await against(text)).toEqual([]);
});

test('one of two was released', async () => {
  const { tension } = await stateOf(
    signedJob(`${pull()}${pull('sill.L')}  - release: front-rail.L\n${finished}`),
  );
  expect(tension).toEqual(['sill.L']);
});

test('a part out of the scope under tension loads the body too', async () => {
  expect((await stateOf(signedJob(`${finished}${pull('sill.R')}`))).remaining).toEqual([
    'sill.R: under tension',
  ]);
});
