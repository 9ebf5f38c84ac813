import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { leftBehindSwept, signedName } from './leftovers';
import { textWritten } from './write';

type Call = 'mkdtempSync' | 'writeFileSync' | 'fsyncSync' | 'renameSync';
/** The calls that wrote, and the one that finds no room. */
const disk = vi.hoisted(() => ({ full: null as Call | null, calls: [] as string[] }));

vi.mock('node:fs', async (original) => {
  const fs = await original<Record<string, (...given: unknown[]) => unknown>>();
  const watched = (name: Call) => (path: unknown, content: string, options: unknown) => {
    disk.calls.push(name);
    if (disk.full !== name) return fs[name](path, content, options);
    // some of it fits
    if (name === 'writeFileSync') fs[name](path, content.slice(0, 7));
    throw Object.assign(new Error('ENOSPC: no space left on device'), { code: 'ENOSPC' });
  };
  const calls: Call[] = ['mkdtempSync', 'writeFileSync', 'fsyncSync', 'renameSync'];
  return { ...fs, ...Object.fromEntries(calls.map((name) => [name, watched(name)])) };
});

let folder: string;
let page: string;
const over = { force: false, isOurs: (start: Buffer) => start.includes('ours') };

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'framewright-'));
  page = join(folder, 'page.html');
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

describe('a disk that is full', () => {
  it.each(['mkdtempSync', 'writeFileSync', 'fsyncSync', 'renameSync'] as const)(
    'by %s leaves the old file, and nothing else',
    (name) => {
      writeFileSync(page, 'ours, old');
      disk.full = name;
      const said = textWritten(page, 'ours, new', over);
      disk.full = null;
      expect(said).toBe(`${page} cannot be written: the disk is full`);
      expect([readdirSync(folder), readFileSync(page, 'utf8')]).toEqual([['page.html'], 'ours, old']);
    },
  );
});

it('is on the disk before it takes the place of the old one', () => {
  disk.calls.length = 0;
  expect(textWritten(page, 'ours', over)).toBeNull();
  expect(disk.calls).toEqual(['mkdtempSync', 'writeFileSync', 'fsyncSync', 'renameSync', 'fsyncSync']);
});

it('takes an empty file for nobody’s', () => {
  writeFileSync(page, '');
  expect(textWritten(page, 'ours', over)).toBeNull();
  writeFileSync(page, 'x');
  expect(textWritten(page, 'ours', over)).toMatch(/not written by Framewright/);
});

it('says so where links lead round in a circle', () => {
  symlinkSync('other.html', page);
  symlinkSync('page.html', join(folder, 'other.html'));
  expect(textWritten(page, 'ours', over)).toMatch(/its link leads to itself$/);
});

describe('what a killed run left', () => {
  const prefix = 'page.html.writing-';
  const left = (name: string): string => {
    const path = join(folder, name);
    mkdirSync(path);
    writeFileSync(join(path, 'page.html'), 'half');
    return path;
  };
  const ofProcess = (pid: number): string => signedName(prefix).replace(`-${process.pid}-`, `-${pid}-`);
  const aged = (path: string, hours: number): void => {
    const then = Date.now() / 1000 - hours * 3600;
    utimesSync(path, then, then);
  };
  // larger than any system counts its processes
  const dead = 999_999_999;

  it('is taken away where its process is dead or it is old, and nothing else is', () => {
    const ofDead = left(`${ofProcess(dead)}a1b2C3`);
    const veryOld = left(`${signedName(prefix)}a1b2C4`);
    const fromElsewhere = left(`${prefix}00000000-${dead}-a1b2C5`);
    const oldFromElsewhere = left(`${prefix}00000000-${dead}-a1b2C6`);
    for (const path of [veryOld, oldFromElsewhere]) aged(path, 25);
    const inUse = left(`${signedName(prefix)}a1b2C7`);
    const notSigned = left(`${prefix}notes`);
    const another = left(`${ofProcess(dead).replace('page', 'other')}a1b2C8`);
    const link = join(folder, `${ofProcess(dead)}a1b2C9`);
    symlinkSync(notSigned, link);
    aged(notSigned, 100);
    leftBehindSwept(folder, prefix);
    expect([ofDead, veryOld, oldFromElsewhere].filter((each) => existsSync(each))).toEqual([]);
    const kept = [fromElsewhere, inUse, notSigned, another, link];
    expect(kept.filter((each) => existsSync(each))).toEqual(kept);
  });

  it('is taken away by the next writing of the same file', () => {
    const ofDead = left(`${ofProcess(dead)}a1b2C3`);
    expect(textWritten(page, 'ours', over)).toBeNull();
    expect(existsSync(ofDead)).toBe(false);
  });
});
