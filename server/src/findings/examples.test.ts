import { describe, expect, it } from 'vitest';
import { isUnread, rules } from './rule-list';
import { analysed } from './testing/analysed';
import { type ExampleFiles, exampleFiles } from './testing/examples';

/** Every page's example shows what its page is about. */
describe.each(rules.map((rule) => [rule.name, rule] as const))('the example of %s', (name, { page }) => {
  const { example, exampleIn } = page;
  if ('notRun' in exampleIn) {
    it('says why it is not run', () => expect(exampleIn.notRun).toMatch(/\w+ \w+ \w+/));
    return;
  }
  const { files, name: file } = exampleFiles(example, exampleIn);

  const foundIn = async (of: ExampleFiles): Promise<string[]> => {
    const { findings } = await analysed(of.files, of.name);
    return findings.filter(({ ignored }) => ignored === null).map(({ rule }) => rule);
  };

  it('is found by it, and cannot be misread otherwise', async () => {
    expect(files[file]).toContain(example);
    const found = await foundIn({ files, name: file });
    expect(found).toContain(name);
    // keys of no meaning stand for a text that is too large
    if (name !== 'text/too-large')
      expect(found.filter((rule) => isUnread(rule) && rule !== name)).toEqual([]);
  });

  it('is what shows it: the same file without it does not', async () => {
    const found = await foundIn(exampleFiles('', exampleIn));
    expect(found.includes(name)).toBe(exampleIn.isAbsence === true);
  });
});

it('no more than one example is not run', () =>
  expect(rules.filter(({ page }) => 'notRun' in page.exampleIn).map(({ name }) => name)).toEqual([
    'internal/fault',
  ]));
