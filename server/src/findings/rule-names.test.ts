import { describe, expect, it } from 'vitest';
import { analysed } from './testing/analysed';

const settings = async (lines: string) => {
  const { findings, text } = await analysed(
    { '.framewright.yaml': `framewright: settings/1\n${lines}` },
    '.framewright.yaml',
  );
  return findings.map(({ rule, range, message, replacements }) => [
    rule,
    text.slice(range.start, range.end),
    message,
    replacements.map((each) => each.text),
  ]);
};

describe('a settings file', () => {
  it('of which all is known has nothing wrong with it', async () => {
    expect(
      await settings(
        'rules:\n  reading/coverage: off\n  chassis/no-source: warning\ndecision-rule: guarded\n',
      ),
    ).toEqual([]);
  });

  it.each([
    [
      'rules: { reading/covrage: off }',
      'text/unknown-key',
      'reading/covrage',
      'there is no rule reading/covrage; did you mean reading/coverage?',
      ['reading/coverage'],
    ],
    [
      'rules: { sign-off/undecided: off }',
      'text/unknown-key',
      'sign-off/undecided',
      'sign-off/undecided guards the work or the sign-off: its severity cannot be changed',
      [],
    ],
    [
      'rules: { reading/coverage: of }',
      'text/wrong-type',
      'of',
      '`reading/coverage` is one of error, warning, information, off, not of; did you mean off?',
      ['off'],
    ],
    [
      'rules: { coverage: off }',
      'text/wrong-type',
      'coverage',
      '`coverage`: expected a rule’s name such as reading/coverage',
      [],
    ],
    [
      'decision-rule: strict',
      'text/wrong-type',
      'strict',
      '`decision-rule` is one of simple, guarded, not strict',
      [],
    ],
    [
      'ignored: [archive]',
      'text/unknown-key',
      'ignored',
      '`ignored` is not a key here; did you mean `ignore`?',
      ['ignore'],
    ],
  ])('%s', async (lines, ...said) => expect(await settings(`${lines}\n`)).toEqual([said]));
});
