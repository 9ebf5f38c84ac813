import { join } from 'node:path';
import { diffSchema } from '@framewright/schemas';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type DiffFormat, diff } from '../commands/diff';
import { signedJob } from '../diff/histories.fixture';
import { chassisWith, job, measure } from '../testing/body';
import { comparingOf } from './compared-revisions';
import { type GitShop, gitShop } from './testing/git-shop';

const body = chassisWith();
const moved = body.replace('both: [3012, 448, 210]', 'both: [3018, 448, 207]');
const inFolder = (text: string): string => text.replace('body.chassis', '../body.chassis');
const late = signedJob().replace('rail-tip-lower.L: [3012, 448', 'rail-tip-lower.L: [3012, 442');

let shop: GitShop;
let first: string;

beforeAll(() => {
  shop = gitShop();
  first = shop.commit({
    'body.chassis.yaml': body,
    'jobs/signed.readings.yaml': inFolder(signedJob()),
    'jobs/open.readings.yaml': inFolder(job(measure('as received'))),
    'notes.txt': 'nothing of ours',
  });
  shop.commit({ 'body.chassis.yaml': moved });
  shop.git('checkout', '-q', '-b', 'late', first);
  shop.commit({ 'jobs/signed.readings.yaml': inFolder(late), 'notes.txt': 'another text' });
  shop.git('mv', 'jobs/open.readings.yaml', 'jobs/renamed.readings.yaml');
  shop.commit({});
});
afterAll(() => shop.gone());

async function said(
  operands: readonly string[],
  {
    format = 'text',
    within = '.',
    afterDashes = 0,
  }: { format?: DiffFormat; within?: string; afterDashes?: number } = {},
): Promise<{ code: number; out: string[]; err: string[] }> {
  const [out, err]: [string[], string[]] = [[], []];
  const comparing = await comparingOf(join(shop.folder, within), { operands, afterDashes });
  if (typeof comparing === 'string') return { code: 2, out, err: [comparing] };
  const code = await diff(comparing, format, {
    print: (line) => out.push(line),
    complain: (line) => err.push(line),
  });
  return { code, out, err };
}

describe('two revisions', () => {
  it('are judged each by its own files', async () => {
    const { code, out } = await said([`${first}..main`]);
    expect(code).toBe(1);
    expect(out[0]).toMatch(
      /^body\.chassis\.yaml: 1 signed job no longer passes its gate; 1 signature no longer agrees; .*2 points moved, 2 jobs rest on it/,
    );
    expect(out[1]).toMatch(
      /^ {2}! job jobs\/signed\.readings\.yaml: .*seals agree → the chassis is no longer/,
    );
  });

  it('are told backwards the other way round', async () => {
    const { out } = await said(['main', first]);
    expect(out).toContain('  ! point rail-tip-lower.L moved 6.7 mm: 6.0 mm rearward, 3.0 mm up');
  });

  it('are compared from where they parted with three dots', async () => {
    const { out } = await said(['main...late']);
    expect(out[0]).toMatch(
      /^1 job changed after its signature; .*\. 1 of 2 changed files differs in meaning$/,
    );
    expect(out.join('\n')).not.toContain('body.chassis.yaml');
    expect(out.join('\n')).toContain('jobs/renamed.readings.yaml: same meaning');
    expect(out.join('\n')).toContain('it was called jobs/open.readings.yaml');
  });

  it('may be narrowed to paths, from the folder where it was typed', async () => {
    const { out, code } = await said(['main...late', 'signed.readings.yaml'], {
      within: 'jobs',
      afterDashes: 1,
    });
    expect(code).toBe(1);
    expect(out[0]).toMatch(/^jobs\/signed\.readings\.yaml: changed after the signature: /);
    const other = await said(['main...late', 'notes.txt'], { afterDashes: 1 });
    expect([other.code, other.out]).toEqual([0, ['no file of ours differs']]);
    // one that is gone, or is in one of them only
    expect((await said(['main...late', 'jobs/open.readings.yaml'], { afterDashes: 1 })).code).toBe(0);
    expect(await said(['main...late', 'jobs/opne.readings.yaml'], { afterDashes: 1 })).toEqual({
      code: 2,
      out: [],
      err: ['jobs/opne.readings.yaml: there is no such file, here or in what is compared'],
    });
  });
});

describe('one revision, or none', () => {
  it('is compared with the work tree', async () => {
    expect(await said([])).toEqual({ code: 0, out: ['no file of ours differs'], err: [] });
    const { code, out } = await said(['main~1']);
    expect([code, out[2]?.split(':')[0]]).toEqual([1, 'jobs/signed.readings.yaml']);
  });

  it('may not be one, and says so', async () => {
    expect(await said(['nowhere'])).toMatchObject({
      code: 2,
      err: ['nowhere is neither a revision nor a file'],
    });
    expect(await said(['--output=x'])).toMatchObject({ code: 2 });
    expect((await said(['main', 'late', first])).err).toEqual(['two revisions are compared, not more']);
  });
});

describe('two files', () => {
  it('are compared as they stand, and nothing is said of jobs', async () => {
    shop.write({ 'other.chassis.yaml': moved });
    const { code, out } = await said(['body.chassis.yaml', 'other.chassis.yaml']);
    shop.write({ 'other.chassis.yaml': null });
    expect([code, out[0]]).toEqual([1, 'other.chassis.yaml: 2 points moved']);
  });

  it('of another kind are refused', async () => {
    expect((await said(['notes.txt', 'body.chassis.yaml'])).err[0]).toMatch(
      /^notes\.txt: not a Framewright file/,
    );
    expect((await said(['jobs', 'body.chassis.yaml'])).err[0]).toBe(
      'jobs is a folder: two files are compared',
    );
  });
});

describe('the formats', () => {
  it('json is what its schema says', async () => {
    const { out } = await said([`${first}..main`], { format: 'json' });
    const found = diffSchema.parse(JSON.parse(out.join('\n')));
    expect(found.files[0].chassis?.points[0]).toEqual({
      id: 'rail-tip-lower.L',
      status: 'changed',
      before: [3012, 448, 210],
      after: [3018, 448, 207],
      shift: [6, 0, -3],
      distance: Math.hypot(6, 3),
    });
    expect(found.meaning).toBe('different');
  });

  it('markdown of one file says its verdict once, bold only where something is grave', async () => {
    const { out } = await said([`${first}..main`], { format: 'markdown' });
    expect(out[0]).toMatch(/^\*\*body\.chassis\.yaml: /);
    expect(out.filter((line) => line.startsWith('#') || line === out[0].replaceAll('**', ''))).toEqual([]);
  });

  it('markdown stays under 60 lines whatever changed, and folds the rest', async () => {
    const texts = Object.fromEntries(
      Array.from({ length: 12 }, (_, k) => [`jobs/n${k}.readings.yaml`, inFolder(signedJob())]),
    );
    const many = shop.commit(texts);
    const shifted = (text: string): string =>
      text.replaceAll(/\[(\d+)(?:\.\d+)?, /g, (_, x: string) => `[${Number(x) + 5}, `);
    shop.commit({
      ...Object.fromEntries(Object.entries(texts).map(([name, text]) => [name, shifted(text)])),
      'body.chassis.yaml': body.replaceAll('base: true', 'fixing: <b>hole</b>'),
    });
    const { out, code } = await said([many], { format: 'markdown' });
    expect(code).toBe(1);
    const lines = out.join('\n').split('\n');
    expect(lines.length).toBeLessThan(60);
    expect(lines[0]).toMatch(
      /^\*\*12 jobs changed after their signatures; .*\. 13 of 13 changed files differ in meaning\*\*$/,
    );
    expect(out.join('\n')).toMatch(/<details><summary>\d+ more lines<\/summary><ul><li>/);
    expect(out.join('\n')).toContain('7 more files');
    expect(out.join('\n')).not.toContain('<b>');
  });
});

it('a chassis that one side does not have is said, and is trouble', async () => {
  shop.git('checkout', '-q', '-b', 'without', first);
  shop.commit({ 'body.chassis.yaml': null, 'jobs/open.readings.yaml': inFolder(job(measure('read'))) });
  const { code, out } = await said([first]);
  expect(code).toBe(2);
  expect(out.join('\n')).toMatch(/jobs\/open\.readings\.yaml: (.*; )?open, .* → cannot be judged/);
  expect(out.join('\n')).toMatch(/now: nothing is judged: there is no file \.\.\/body\.chassis\.yaml/);
  expect(out.join('\n')).toMatch(
    /body\.chassis\.yaml: .*1 signature no longer agrees.* deleted body of 26 points and 7 parts, 2 jobs rest on it/,
  );
});

describe('what cannot be judged is trouble, whatever else differs', () => {
  const broken = body.replace('build: 0.1\n', 'build: [\n');
  it.each<[string, Record<string, string | null>]>([
    [
      'a job that is new',
      { 'jobs/new.readings.yaml': job(measure('read')).replace('body.chassis', 'none.chassis') },
    ],
    ['a chassis file with errors, in which points moved', { 'body.chassis.yaml': `${moved}\nbuild: [\n` }],
    ['a job that did not change, on a chassis file that is gone', { 'body.chassis.yaml': null }],
    ['a job that did not change, on a chassis file with errors', { 'body.chassis.yaml': broken }],
    [
      'a reading that changed, in a job with errors',
      { 'jobs/signed.readings.yaml': `${inFolder(late)}\nscope: [\n` },
    ],
  ])('%s', async (_, texts) => {
    shop.git('checkout', '-q', '-f', first);
    shop.commit(texts);
    const { code, out, err } = await said([first, 'HEAD']);
    expect([code, out.length > 0, err.length > 0]).toEqual([2, true, true]);
  });

  it('and settings that moved are none: they are told', async () => {
    shop.git('checkout', '-q', '-f', first);
    const second = shop.commit({ '.framewright.yaml': 'framewright: settings/1\ndecision-rule: guarded\n' });
    shop.git('mv', '.framewright.yaml', 'jobs/.framewright.yaml');
    shop.commit({});
    const { code, out } = await said([second, 'HEAD']);
    expect([code, out[0]]).toEqual([
      1,
      expect.stringMatching(
        /^jobs\/\.framewright\.yaml: settings moved, they hold for jobs\/ and no longer for all files: decision-rule/,
      ),
    ]);
  });
});
