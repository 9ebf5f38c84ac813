import { expect, test } from 'vitest';
import { jobFiles, measure } from '../../testing/body';
import { found, silent } from '../testing/kit';
import { against, signedJob } from '../testing/sign-off';

const finished = `${measure('finished')}\n`;
const earlier = (text: string): string => text.replace('  judged-by: 0.2\n', '');
const since = (version: string) => ({
  '.framewright.yaml': `framewright: settings/1\nsigned-since: ${version}\n`,
});

test('a job closed without a scope is warned once', async () => {
  const mark =
    '#<^^^^^^ warning: sign-off/no-scope signed off without a scope: only what was read or worked on is judged.\n';
  await found('sign-off/no-scope', jobFiles(signedJob(finished, mark, '', '')));
  expect(await against(signedJob(finished, '', '', ''))).toEqual(['warning sign-off/no-scope']);
  expect(await against(signedJob(finished))).toEqual([]);
});

test('a shop may refuse older signatures; that is no newer rule that only warns', async () => {
  const name = 'sign-off/old-signature';
  const mark =
    '#<^^^^^^ error: sign-off/old-signature signed under version 0.1; the settings ask for 0.2 or newer: look at it and sign again\n';
  await found(name, { ...since('0.2'), ...jobFiles(earlier(signedJob(finished, mark))) });
  await silent(name, { ...since('0.2'), ...jobFiles(signedJob(finished)) });
  await silent(name, { ...since('0.1'), ...jobFiles(earlier(signedJob(finished))) });
  await silent(name, jobFiles(earlier(signedJob(finished))));
});
