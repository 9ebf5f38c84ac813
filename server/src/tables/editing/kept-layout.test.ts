import { expect, it } from 'vitest';
import { settingsFrom } from '../../model/read/settings';
import { parseText } from '../../text/yaml/parse';
import { withLayout } from './kept-layout';

const lines = ['columns: { point: Name, length: X, width: Y, height: Z }', 'decimal: comma'];
const layouts = (text: string) => [...settingsFrom(parseText(text), '').settings.tables.keys()];

it('a layout stands under tables of the settings, and nothing else is touched', () => {
  for (const [before, names] of [
    [null, ['arm 2']],
    ['framewright: settings/1\ndecision-rule: guarded   # ours\n', ['arm 2']],
    ['framewright: settings/1\ntables:\n# none yet\n', ['arm 2']],
    [
      'framewright: settings/1\ntables:\n  leg:\n    columns: { point: 1, length: 2, width: 3, height: 4 }\ndecision-rule: guarded\n',
      ['leg', 'arm 2'],
    ],
  ] as const) {
    const made = withLayout(before, 'arm 2', lines);
    if ('message' in made) throw new Error(made.message);
    expect(layouts(made.text)).toEqual(names);
    expect(settingsFrom(parseText(made.text), '').problems).toEqual([]);
    for (const line of before?.split('\n') ?? []) expect(made.text).toContain(line);
  }
});

it('is refused where its name is taken, or the settings cannot be read', () => {
  const taken =
    'framewright: settings/1\ntables:\n  arm:\n    columns: { point: 1, length: 2, width: 3, height: 4 }\n';
  expect(withLayout(taken, 'arm', lines)).toEqual({ message: 'the settings have a layout arm already' });
  expect(withLayout('framewright: [', 'arm', lines)).toHaveProperty('message');
  expect(withLayout('framewright: settings/1\ntables: {}\n', 'arm', lines)).toHaveProperty('message');
});
