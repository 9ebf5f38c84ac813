// What changed behind a link, and in a submodule, in a repository of git's own.
import { lstatSync, rmSync, symlinkSync } from 'node:fs';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { type GitShop, gitShop } from '../../server/src/node/testing/git-shop';
import { framewright } from './framewright';

// many processes, one after the other
vi.setConfig({ testTimeout: 300_000 });

const body = (latch = 2700): string =>
  `framewright: chassis/1\nvehicle: Teal\nsource: { kind: published, reference: sheet 7, date: 2026-01-12 }\npoints:\n  latch: { centre: [${latch}, 0, 780] }\n`;
const job = (chassis: string): string =>
  `framewright: readings/1\nchassis: ../${chassis}\ntimeline:\n  - measure: as received\n    readings: { latch: [2701, 0, 780] }\n`;

let shop: GitShop;
let others: GitShop[];
beforeEach(() => {
  shop = gitShop();
  others = [];
});
afterEach(() => {
  for (const each of [shop, ...others]) each.gone();
});

const link = (to: string, at: string): void => symlinkSync(to, path.join(shop.folder, at));

function checked(how: string, ...more: string[]) {
  const { code, out, err } = framewright(['check', '--verbose', how, ...more], shop.folder);
  return {
    code,
    out,
    err,
    jobs: [...out.matchAll(/^jobs\/(\S+)\.readings\.yaml: job, open$/gm)].map(([, name]) => name),
  };
}

/** Says the same of the work tree and of what is staged. */
function bothWays() {
  const changed = checked('--changed').jobs;
  shop.git('add', '-A');
  return { changed, staged: checked('--staged').jobs };
}

const both = (...jobs: string[]) => ({ changed: jobs, staged: jobs });

describe('behind a link', () => {
  test('a chassis file of another name is seen by the jobs that rest on the link', () => {
    shop.write({ 'specs/a.txt': 'x', 'data/marten.yaml': body(), 'notes.md': 'notes\n' });
    link('../data/marten.yaml', 'specs/marten.chassis.yaml');
    shop.commit({
      'jobs/a.readings.yaml': job('specs/marten.chassis.yaml'),
      'jobs/b.readings.yaml': job('specs/other.chassis.yaml'),
      'specs/other.chassis.yaml': body(),
    });
    shop.write({ 'data/marten.yaml': body(2720) });
    expect(bothWays()).toEqual(both('a'));
    const { code, out } = framewright(['diff', 'HEAD'], shop.folder);
    expect(code).toBe(1);
    expect(out).toContain('specs/marten.chassis.yaml: ');
    expect(out).toContain('point latch moved 20.0 mm');
    expect(out).toContain('1 job rests on it');
    shop.commit({ 'notes.md': 'other notes\n' });
    expect(framewright(['diff', 'HEAD~1..HEAD'], shop.folder).out).toContain('point latch moved 20.0 mm');
    // what no link leads to concerns nobody
    shop.write({ 'notes.md': 'new notes\n' });
    expect(bothWays()).toEqual(both());
    expect(framewright(['diff', 'HEAD'], shop.folder).code).toBe(0);
  });

  test('another target, another folder behind a link, and a link to a listed file are seen', () => {
    shop.write({ 'y26/teal.chassis.yaml': body(), 'y27/teal.chassis.yaml': body(2730), 'jobs/x.txt': 'x' });
    link('y26', 'specs');
    link('y26/teal.chassis.yaml', 'now.chassis.yaml');
    shop.commit({
      'jobs/folder.readings.yaml': job('specs/teal.chassis.yaml'),
      'jobs/link.readings.yaml': job('now.chassis.yaml'),
    });
    shop.write({ 'y26/teal.chassis.yaml': body(2710) });
    expect(bothWays()).toEqual(both('folder', 'link'));
    expect(framewright(['diff', 'HEAD'], shop.folder).out).toContain('2 jobs rest on it');
    shop.git('reset', '-q', '--hard');
    for (const [to, at] of [
      ['y27', 'specs'],
      ['y27/teal.chassis.yaml', 'now.chassis.yaml'],
    ]) {
      rmSync(path.join(shop.folder, at));
      link(to, at);
    }
    expect(lstatSync(path.join(shop.folder, 'specs')).isSymbolicLink()).toBe(true);
    expect(bothWays()).toEqual(both('folder', 'link'));
    const { code, out } = framewright(['diff', 'HEAD'], shop.folder);
    expect(code).toBe(1);
    expect(out).toMatch(/^now\.chassis\.yaml: .*1 point moved, 1 job rests on it/m);
    expect(out).toMatch(/^specs: .*link to other files.*1 job rests on it/m);
  });
});

describe('a submodule', () => {
  /** A repository of specs, and the shop with it as a submodule. */
  function withModule(): { library: GitShop; first: string } {
    const library = gitShop();
    others.push(library);
    library.commit({ 'teal.chassis.yaml': body() });
    shop.git('-c', 'protocol.file.allow=always', 'submodule', '--quiet', 'add', library.folder, 'library');
    const first = shop.commit({
      'jobs/a.readings.yaml': job('library/teal.chassis.yaml'),
      'jobs/b.readings.yaml': job('specs/own.chassis.yaml'),
      'specs/own.chassis.yaml': body(),
    });
    return { library, first };
  }
  const inModule = (...args: string[]) => shop.git('-C', 'library', ...args);

  test('that is at another commit selects the jobs that rest on it, each judged by its own commit', () => {
    const { library, first } = withModule();
    library.commit({ 'teal.chassis.yaml': body(2750) });
    inModule('-c', 'protocol.file.allow=always', 'pull', '-q', '--no-rebase', 'origin', 'main');
    expect(bothWays()).toEqual(both('a'));
    expect(checked('--staged').out).toContain('latch');
    const { code, out } = framewright(['diff', 'HEAD'], shop.folder);
    expect(code).toBe(1);
    expect(out).toMatch(/^library: git submodule.*1 job rests on it/m);
    shop.commit({});
    expect(framewright(['diff', `${first}..HEAD`], shop.folder).out).toBe(out);
    // a job on a submodule that did not change is judged by it
    shop.write({ 'jobs/a.readings.yaml': `${job('library/teal.chassis.yaml')}# seen\n` });
    expect(bothWays()).toEqual(both('a'));
    expect(checked('--staged').out).not.toContain('there is no file');
  });

  test('whose commit is not here is said, and is no pass', () => {
    const { first } = withModule();
    rmSync(path.join(shop.folder, 'library'), { recursive: true });
    shop.git('update-index', '--cacheinfo', `160000,${'1'.repeat(40)},library`);
    const staged = checked('--staged');
    expect([staged.code, staged.jobs]).toEqual([1, ['a']]);
    expect(staged.out).toContain('git submodule library, whose commit 1111111111 is not here');
    const tree = shop.git('write-tree').trim();
    const commit = shop.git('commit-tree', tree, '-p', first, '-m', 'other').trim();
    const { code, out } = framewright(['diff', first, commit], shop.folder);
    expect(code).toBe(2);
    expect(out).toMatch(/^library: git submodule.*cannot be judged/m);
  });

  test('that nothing of ours rests on is no trouble', () => {
    withModule();
    shop.commit({ 'jobs/a.readings.yaml': job('specs/own.chassis.yaml') });
    shop.write({ 'library/notes.txt': 'x' });
    inModule('add', '-A');
    inModule('commit', '-q', '-m', 'notes');
    expect(framewright(['diff', 'HEAD'], shop.folder)).toMatchObject({ code: 0 });
  });
});
