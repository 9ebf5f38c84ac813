import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checkSelected } from '../commands/check-selected';
import { recorded, sampleTexts, shopOf, target } from '../commands/recorded.fixture';
import { pathsSelected } from '../commands/select';
import type { Files } from '../workspace/files';
import { reportingOf } from './cached-reports';
import { cacheFolder, sumOf } from './kept-file';
import { ResultCache } from './result-cache';
import type { Making } from './witness';
import { judgingOf } from './workers';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'framewright-cache-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const options = { open: false, verbose: false, summaries: true, coloured: false };

interface Run {
  readonly files: Files;
  readonly program?: string;
  readonly verbose?: boolean;
  readonly cached?: boolean;
}

/** A check of the shop: what it says, and how many files were judged for it. */
async function run({ files, program = 'this', verbose = false, cached = true }: Run) {
  let judged = 0;
  const making: Making = async function* (targets, each) {
    const judge = judgingOf(files);
    for (const one of targets) {
      judged++;
      yield await judge(one, each);
    }
  };
  const cache = new ResultCache(folder, program, {
    root: files.root,
    leadsOut: files.leadsOut,
    idOf: async (uri) => {
      const read = await files.read(uri);
      return read.kind === 'text' ? sumOf(read.text) : null;
    },
  });
  const selection = await pathsSelected(files, [target('.')]);
  const said = await recorded((output) =>
    checkSelected(selection, { ...options, verbose }, output, reportingOf(making, cached ? cache : null)),
  );
  return { ...said, judged };
}

const estate = 'specs/teal-estate.chassis.yaml';
const hatch = 'specs/marten-hatch.chassis.yaml';
const finished = 'jobs/w-1174-finished.readings.yaml';
const few: Record<string, string> = Object.fromEntries(
  ['.framewright.yaml', estate, hatch, finished].map((path) => [path, sampleTexts[path]]),
);
/** Settings are always judged anew: they tell what they ignore in vain. */
const settingsFiles = 1;
const entries = (): string[] =>
  readdirSync(join(folder, 'results-1'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name !== 'swept')
    .map((entry) => join(entry.parentPath, entry.name));

describe('a second check', () => {
  it('says the same byte for byte, of every sample, and judges nothing again', async () => {
    const files = shopOf(sampleTexts);
    const without = await run({ files, cached: false });
    const first = await run({ files });
    const second = await run({ files });
    expect(first.judged).toBe(Object.keys(sampleTexts).length);
    expect(second.judged).toBe(settingsFiles);
    expect({ ...first, judged: 0 }).toEqual({ ...without, judged: 0 });
    expect({ ...second, judged: 0 }).toEqual({ ...without, judged: 0 });
    expect(first.printed).toContain('sign-off: stands');
  });

  it.each([
    ['the file itself', { ...few, [finished]: `${few[finished]}# seen\n` }, 1],
    ['its chassis file', { ...few, [estate]: `${few[estate]}# seen\n` }, 2],
    ['what its chassis file extends', { ...few, [hatch]: `${few[hatch]}# seen\n` }, 3],
    [
      'the settings',
      { ...few, '.framewright.yaml': few['.framewright.yaml'].replace('simple', 'guarded') },
      3,
    ],
    [
      'settings that are new',
      { ...few, 'jobs/.framewright.yaml': 'framewright: settings/1\nrules: {}\n' },
      1,
    ],
    ['settings that are gone', Object.fromEntries(Object.entries(few).slice(1)), 3],
  ])('judges anew what depends on %s', async (_, changed, count) => {
    await run({ files: shopOf(few) });
    const files = shopOf(changed);
    const settings = Object.keys(changed).filter((path) => path.endsWith('.framewright.yaml')).length;
    const now = await run({ files });
    expect(now.judged).toBe(count + settings);
    expect({ ...now, judged: 0 }).toEqual({ ...(await run({ files, cached: false })), judged: 0 });
  });

  it('judges all anew for another program, and for another question', async () => {
    const files = shopOf(few);
    await run({ files });
    expect((await run({ files, program: 'newer' })).judged).toBe(4);
    expect((await run({ files, verbose: true })).judged).toBe(4);
    expect((await run({ files })).judged).toBe(settingsFiles);
  });

  it('never holds what a file that is not there would change', async () => {
    const { [estate]: _, ...without } = few;
    const files = shopOf({ ...without, 'specs/teal-estates.chassis.yaml': few[estate] });
    expect((await run({ files })).printed).toContain('did you mean ../specs/teal-estates.chassis.yaml?');
    const other = shopOf({ ...without, 'old/teal-estate.chassis.yaml': few[estate] });
    const now = await run({ files: other });
    expect(now.printed).toContain('did you mean ../old/teal-estate.chassis.yaml?');
  });
});

describe('an entry', () => {
  it.each<[string, (bytes: Buffer) => Buffer | string]>([
    ['cut short', (bytes) => bytes.subarray(0, bytes.length >> 1)],
    ['empty', () => ''],
    ['of another text', () => '{"report":{"findings":[]},"sources":[]}'],
    ['with one letter changed', (bytes) => bytes.toString().replace('stands', 'standz')],
  ])('that is %s is as none', async (_, damage) => {
    const files = shopOf(few);
    const first = await run({ files });
    for (const path of entries()) writeFileSync(path, damage(readFileSync(path)));
    const again = await run({ files });
    expect(again).toMatchObject({ code: first.code, printed: first.printed });
    expect(again.judged).toBeGreaterThan(settingsFiles);
    expect((await run({ files })).judged).toBe(settingsFiles);
  });

  it('is whole or not there: nothing half written lies beside it', async () => {
    await run({ files: shopOf(few) });
    expect(entries()).toHaveLength(3);
    expect(entries().every((path) => /[/\\][\w-]{2}[/\\][\w-]+$/.test(path))).toBe(true);
  });

  it('that is old goes, and others stay', async () => {
    const files = shopOf(few);
    await run({ files });
    const [old, ...young] = entries();
    const then = Date.now() / 1000 - 40 * 24 * 3600;
    utimesSync(old, then, then);
    utimesSync(join(folder, 'results-1/swept'), then, then);
    await run({ files: shopOf({ ...few, [finished]: `${few[finished]}# seen\n` }) });
    expect(entries()).toEqual(expect.arrayContaining(young));
    expect(statSync(old, { throwIfNoEntry: false })).toBeUndefined();
  });

  it('that can be kept nowhere is not missed', async () => {
    writeFileSync(join(folder, 'results-1'), 'a file is in the way');
    const files = shopOf(few);
    expect(await run({ files })).toEqual(await run({ files, cached: false }));
  });
});

it('lies in the folder that the system has for it', () => {
  const home = () => '/home/rk';
  const posix = (environment: NodeJS.ProcessEnv) => cacheFolder(environment, 'linux', home);
  expect(posix({ XDG_CACHE_HOME: '/var/rk' })).toBe('/var/rk/framewright');
  expect(posix({})).toBe('/home/rk/.cache/framewright');
  expect(posix({ XDG_CACHE_HOME: 'cache' })).toBe('/home/rk/.cache/framewright');
  expect(cacheFolder({ LOCALAPPDATA: '/c/local', XDG_CACHE_HOME: '/x' }, 'win32', home)).toBe(
    '/c/local/framewright',
  );
  const homeless = () => {
    throw new Error('no home');
  };
  expect(cacheFolder({}, 'linux', homeless)).toBeNull();
});
