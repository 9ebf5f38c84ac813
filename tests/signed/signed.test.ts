// What was signed by an earlier version stays signed: each file here is as that version wrote it.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { judgingVersions } from '@framewright/schemas';
import { describe, expect, test } from 'vitest';
import { analysed } from '../../server/src/findings/testing/analysed';
import { signOffState } from '../../server/src/inspection/gate/sign-off';

const here = import.meta.dirname;
const versions = readdirSync(here).filter((name) => /^\d/.test(name));

test('every version before this one has its files', () =>
  expect(versions).toEqual(judgingVersions.slice(0, -1)));

describe.each(versions)('signed under %s', (version) => {
  const folder = path.join(here, version);
  const textsIn = (name: string): [string, string][] =>
    existsSync(path.join(folder, name))
      ? readdirSync(path.join(folder, name)).map((file) => [
          `${name}/${file}`,
          readFileSync(path.join(folder, name, file), 'utf8'),
        ])
      : [];
  const specs = Object.fromEntries(textsIn('specs'));

  test.each(textsIn('jobs'))('%s passes', async (name, text) => {
    const analysis = await analysed({ ...specs, [name]: text }, name);
    if (analysis.kind !== 'readings' || analysis.inspection === null) throw new Error('not judged');
    expect(signOffState(analysis.inspection, analysis.settings).passes).toBe(true);
    const heard = analysis.findings.filter(({ severity, ignored }) => severity !== 'information' && !ignored);
    expect(heard.filter(({ severity }) => severity === 'error')).toEqual([]);
    const newer = heard.filter(({ message }) => message.endsWith('(newer than this signature)'));
    expect(newer.map(({ rule }) => rule)).toEqual(['sign-off/not-joined']);
  });
});
