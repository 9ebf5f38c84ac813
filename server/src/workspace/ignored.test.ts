import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { check } from '../commands/check';
import { recorded, shopOf, target } from '../commands/recorded.fixture';
import { memoryFiles } from './testing/memory-files';
import { Workspace } from './workspace';

const settings = (ignore: string): string => `framewright: settings/1\nignore: ${ignore}\n`;
const body = 'framewright: chassis/1\nvehicle: Teal\nsource: { kind: published }\npoints: {}\n';
const paths = [
  'a.chassis.yaml',
  'archive/old.chassis.yaml',
  'archive/2025/older.chassis.yaml',
  'trials/b.chassis.yaml',
  'trials/2025/c.chassis.yaml',
  'trials/2025 extra/d.chassis.yaml',
  'trials/archive/e.chassis.yaml',
];
const bodies = Object.fromEntries(paths.map((path) => [path, body]));
const shop = {
  ...bodies,
  '.framewright.yaml': settings('[archive, trials/2025]'),
  'trials/.framewright.yaml': settings('[archive]'),
};

const workspaceOf = (texts: Record<string, string>): Workspace =>
  new Workspace(
    memoryFiles(
      Object.fromEntries(Object.entries(texts).map(([name, text]) => [`file:///shop/${name}`, text])),
      'file:///shop/',
    ),
  );

const checked = (folder: string[], texts: Record<string, string> = shop) =>
  recorded((output) =>
    check(
      shopOf(texts),
      folder.map(target),
      { open: false, verbose: true, summaries: false, coloured: false },
      output,
    ),
  );

describe('what settings ignore', () => {
  it('is the same whichever folder the question is about', async () => {
    const workspace = workspaceOf(shop);
    const inShop = (await workspace.filesIn('file:///shop', false)).uris;
    expect(inShop.map((uri) => decodeURIComponent(uri.slice('file:///shop/'.length)))).toEqual([
      '.framewright.yaml',
      'a.chassis.yaml',
      'trials/.framewright.yaml',
      'trials/2025 extra/d.chassis.yaml',
      'trials/b.chassis.yaml',
    ]);
    for (const folder of ['trials', 'trials/', 'archive', 'archive/2025', 'trials/2025', 'trials/2025 extra'])
      expect((await workspace.filesIn(`file:///shop/${folder}`, false)).uris, folder).toEqual(
        inShop.filter((uri) => uri.startsWith(`file:///shop/${folder.replace(/\/$/, '')}/`)),
      );
    // the settings of a folder below count for its parents' questions too
    const above = new Workspace(
      memoryFiles(
        {
          'file:///all/shop/.framewright.yaml': settings('[archive]'),
          'file:///all/shop/archive/x.chassis.yaml': body,
        },
        'file:///all/',
      ),
    );
    expect((await above.filesIn('file:///all', false)).uris).toEqual(['file:///all/shop/.framewright.yaml']);
    expect((await above.filesIn('file:///all', true)).uris).toHaveLength(2);
  });

  it('of any settings, asked of any folder, is what is ignored of the root', async () => {
    const entry = fc.constantFrom(
      'archive',
      './trials',
      'trials/2025/',
      'trials\\2025',
      '2025',
      '..',
      '.',
      '/shop',
      '2025 extra',
      '*',
    );
    const list = fc.array(entry, { maxLength: 2 });
    const folders = [
      'archive',
      'trials',
      'trials/2025',
      'trials/2025 extra',
      'trials/archive',
      'archive/2025',
    ];
    await fc.assert(
      fc.asyncProperty(list, list, fc.constantFrom(...folders), async (top, nested, folder) => {
        const workspace = workspaceOf({
          ...bodies,
          '.framewright.yaml': settings(JSON.stringify(top)),
          'trials/.framewright.yaml': settings(JSON.stringify(nested)),
        });
        const all = (await workspace.filesIn('file:///shop', false)).uris;
        expect(all).toContain('file:///shop/a.chassis.yaml');
        expect((await workspace.filesIn(`file:///shop/${folder}`, false)).uris).toEqual(
          all.filter((uri) => uri.startsWith(`file:///shop/${folder}/`)),
        );
      }),
    );
  });

  it('is looked at on the command line where the file itself is named, and else is said to be ignored', async () => {
    const named = await checked(['archive/old.chassis.yaml']);
    expect(named.printed).toContain('1 file: ');
    expect(named.code).toBe(0);
    const folder = await checked(['archive']);
    expect(folder.complained).toContain(
      'archive: all files below this folder are ignored by .framewright.yaml',
    );
    expect(folder.code).toBe(2);
    const both = await checked(['trials', 'trials/2025/c.chassis.yaml']);
    expect(both.printed).toContain('4 files: ');
  });
});

describe('settings/ignore-matches-nothing', () => {
  async function told(ignore: string, texts: Record<string, string> = bodies): Promise<string[][]> {
    const analysis = await workspaceOf({ ...texts, '.framewright.yaml': settings(ignore) }).analysis(
      'file:///shop/.framewright.yaml',
    );
    if (!('findings' in analysis)) throw new Error('no analysis');
    return analysis.findings.map(({ rule, severity, message, range }) => [
      rule,
      severity,
      analysis.text.slice(range.start, range.end),
      message,
    ]);
  }

  it('is silent where each entry leaves files out', async () =>
    expect(await told('[archive, ./trials/2025/, "trials\\\\2025 extra"]')).toEqual([]));

  it.each([
    ['[archiv]', 'archiv', 'archiv ignores nothing: there is no chassis, readings or settings file below it'],
    ['["trials/*"]', '"trials/*"', 'trials/* ignores nothing: name a folder, patterns are not read here'],
    [
      '[a.chassis.yaml]',
      'a.chassis.yaml',
      'a.chassis.yaml ignores nothing: it is a file, and folders are ignored',
    ],
    ['[node_modules]', 'node_modules', 'node_modules ignores nothing: this folder is never searched anyway'],
  ])('%s', async (ignore, at, message) =>
    expect(await told(ignore)).toEqual([['settings/ignore-matches-nothing', 'warning', at, message]]),
  );

  it.each(['../other', '.', '/archive', 'https://pinefield.example/x'])(
    '%s leads outside, and ignores nothing',
    async (entry) => {
      const [[rule, , , message], ...more] = await told(JSON.stringify([entry]));
      expect(rule).toBe('settings/ignore-matches-nothing');
      expect(message).toContain(`${entry} leads to no folder below this file,`);
      expect(more).toEqual([]);
    },
  );
});
