import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { blobWith, changedPaths, runGit } from './git';

let folder: string;
const git = (...args: string[]): string => execFileSync('git', args, { cwd: folder, encoding: 'utf8' });
const commit = (message: string): void => {
  git('add', '-A');
  git('-c', 'user.name=rk', '-c', 'user.email=rk@invalid', 'commit', '-q', '-m', message);
};
const write = (path: string, text: string): void => writeFileSync(join(folder, path), text);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'framewright-git-'));
  git('init', '-q', '-b', 'main');
  mkdirSync(join(folder, 'jobs'));
  write('jobs/a b ü.txt', '\uFEFFone\n');
  write('kept.txt', 'a text that is long enough to be known again\n');
  write('gone.txt', 'gone\n');
  commit('first');
  git('tag', 'first');
  write('jobs/a b ü.txt', 'two\n');
  renameSync(join(folder, 'kept.txt'), join(folder, 'moved.txt'));
  rmSync(join(folder, 'gone.txt'));
  write('new.txt', 'new\n');
  commit('second');
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

describe('a file of a revision', () => {
  it('is its text, byte-order mark and all', async () => {
    expect(await blobWith(folder, 'first:jobs/a b ü.txt')).toBe('\uFEFFone\n');
    expect(await blobWith(join(folder, 'jobs'), 'HEAD:jobs/a b ü.txt')).toBe('two\n');
  });

  it('is what is staged where no revision is named', async () => {
    write('new.txt', 'staged\n');
    git('add', 'new.txt');
    write('new.txt', 'typed\n');
    expect(await blobWith(folder, ':new.txt')).toBe('staged\n');
    git('checkout', '-q', 'HEAD', '--', 'new.txt');
  });

  it.each([
    ['a file that was not there', 'first', 'new.txt'],
    ['a folder', 'first', 'jobs'],
    ['a revision that is none', 'nowhere', 'new.txt'],
    ['an option', '--batch', 'new.txt'],
    ['a name that no file has', 'first', 'a\0b'],
  ])('is null of %s', async (_, revision, path) => {
    expect(await blobWith(folder, `${revision}:${path}`)).toBeNull();
  });
});

describe('what changed', () => {
  it('is told by file, a renamed one with both names', async () => {
    expect(await changedPaths(join(folder, 'jobs'), 'first', 'HEAD')).toEqual([
      { status: 'deleted', path: 'gone.txt', oldPath: null, passage: null },
      { status: 'modified', path: 'jobs/a b ü.txt', oldPath: null, passage: null },
      { status: 'renamed', path: 'moved.txt', oldPath: 'kept.txt', passage: null },
      { status: 'added', path: 'new.txt', oldPath: null, passage: null },
    ]);
  });

  it('is what the work tree has where no second revision is named', async () => {
    write('new.txt', 'typed\n');
    expect(await changedPaths(folder, 'HEAD', null)).toEqual([
      { status: 'modified', path: 'new.txt', oldPath: null, passage: null },
    ]);
    git('checkout', '-q', 'HEAD', '--', 'new.txt');
  });

  it('cannot be told of what is no revision, and git says so', async () => {
    await expect(changedPaths(folder, 'nowhere', null)).rejects.toThrow(/nowhere/);
    await expect(changedPaths(folder, '--output=x', null)).rejects.toThrow(/no revision/);
  });
});

it('never throws: where git cannot run that is its answer', async () => {
  const { code, stderr } = await runGit(join(folder, 'nowhere'), ['status']);
  expect([code, stderr === '']).toEqual([127, false]);
  expect((await runGit(folder, ['no-such-command'])).code).toBe(1);
});
