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
      '2025*',
      '!trials/2025',
      '*.chassis.yaml',
      '!b.chassis.yaml',
      '**/older.*',
      '[ab]*/',
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
        const found = (await workspace.filesIn(`file:///shop/${folder}`, false)).uris;
        expect(found).toEqual(all.filter((uri) => uri.startsWith(`file:///shop/${folder}/`)));
        // told on the command line, every file is in one of two lists
        const told = await workspace.lookedFor(`file:///shop/${folder}`, true);
        expect(told.uris).toEqual(found);
        expect([...told.uris, ...told.leftOut.map(({ uri }) => uri)].sort()).toEqual(
          (await workspace.filesIn(`file:///shop/${folder}`, true)).uris,
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
      'archive: all files below this folder are left out by ignore; a file that you name yourself is checked',
    );
    expect(folder.code).toBe(2);
    const both = await checked(['trials', 'trials/2025/c.chassis.yaml']);
    expect(both.printed).toContain('4 files: ');
  });
});

/** What each entry leaves out of `paths`, alone in the settings of the shop. */
describe('an entry', () => {
  it.each([
    // without a wildcard it is a path from the settings' folder
    ['archive', [1, 2]],
    ['archive/', [1, 2]],
    ['./archive/2025', [2]],
    ['2025', []],
    ['a.chassis.yaml', [0]],
    ['trials/2025 extra', [5]],
    // with one it is read as in .gitignore: without a slash it may lie anywhere
    ['arch*', [1, 2, 6]],
    ['/arch*', [1, 2]],
    ['trials/*', [3, 4, 5, 6]],
    ['trials/*.yaml', [3]],
    ['**/2025', [2, 4]],
    ['[bc].chassis.yaml', [3, 4]],
    ['ARCH*', []],
    ['old?chassis.yaml', [1]],
  ] as const)('%s leaves out what it says, whichever folder is named', async (entry, left) => {
    const workspace = workspaceOf({ ...bodies, '.framewright.yaml': settings(JSON.stringify([entry])) });
    for (const folder of ['', 'archive/', 'archive/2025/', 'trials/', 'trials/2025/', 'trials/2025 extra/']) {
      const { uris, leftOut } = await workspace.lookedFor(`file:///shop/${folder}`, true);
      const names = (all: readonly string[]) =>
        all.map((uri) => decodeURIComponent(uri.slice('file:///shop/'.length)));
      const inFolder = paths.filter((path) => path.startsWith(folder));
      const wanted = left.map((index) => paths[index]).filter((path) => inFolder.includes(path));
      expect([folder, names(leftOut.map(({ uri }) => uri))]).toEqual([folder, [...wanted].sort()]);
      expect(names(uris).filter((name) => name !== '.framewright.yaml')).toEqual(
        inFolder.filter((path) => !wanted.some((each) => each === path)).sort(),
      );
    }
  });

  it('lets in again what an entry before it left out, unless its folder was left out', async () => {
    const left = async (entries: string[]) =>
      (
        await workspaceOf({
          ...bodies,
          '.framewright.yaml': settings(JSON.stringify(entries)),
        }).lookedFor('file:///shop/', true)
      ).leftOut.length;
    expect(await left(['trials/*'])).toBe(4);
    expect(await left(['trials/*', '!trials/b*'])).toBe(3);
    expect(await left(['trials', '!trials/b*'])).toBe(4);
  });
});

describe('.gitignore', () => {
  const texts = {
    ...bodies,
    '.gitignore': '# by hand\nolder.*\n/trials/2025/\n*.swp\n',
    'trials/.gitignore': '!2025 extra\nb.chassis.yaml\n',
    'archive/.gitignore': '!older.chassis.yaml\n',
  };

  it('counts where folders are walked, the nearest one that says anything first; a named file is looked at', async () => {
    const all = await checked(['.'], texts);
    expect(all.complained).toBe(
      'framewright: 2 files left out by .gitignore: trials/2025/c.chassis.yaml, trials/b.chassis.yaml',
    );
    expect(all.printed).toContain('5 files: ');
    expect(all.code).toBe(0);
    expect((await checked(['trials'], texts)).complained).toBe(all.complained);
    const named = await checked(['trials', 'trials/b.chassis.yaml'], texts);
    expect(named.complained).toBe('framewright: 1 file left out by .gitignore: trials/2025/c.chassis.yaml');
    expect(named.printed).toContain('3 files: ');
  });

  it('is nothing to an editor, which shows what is open', async () =>
    expect((await workspaceOf(texts).filesIn('file:///shop', false)).uris).toHaveLength(paths.length));
});

it('of many files that are left out the first are named', async () => {
  const { complained } = await checked(['.'], { ...bodies, '.framewright.yaml': settings('["*/**"]') });
  expect(complained).toBe(
    'framewright: 6 files left out by ignore: archive/2025/older.chassis.yaml, archive/old.chassis.yaml, trials/2025 extra/d.chassis.yaml, trials/2025/c.chassis.yaml, trials/archive/e.chassis.yaml and 1 more',
  );
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
    expect(
      await told(
        '[archive, ./trials/2025/, "trials\\\\2025 extra", a.chassis.yaml, "*/*.chassis.yaml", "!b.*"]',
      ),
    ).toEqual([]));

  it.each([
    ['[archiv]', 'archiv', 'archiv ignores nothing: there is no chassis, readings or settings file below it'],
    [
      '[trials/x*]',
      'trials/x*',
      'trials/x* ignores nothing: no chassis, readings or settings file below this folder matches it',
    ],
    [
      '["!trials/x"]',
      '"!trials/x"',
      '!trials/x ignores nothing: no chassis, readings or settings file below this folder matches it',
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
