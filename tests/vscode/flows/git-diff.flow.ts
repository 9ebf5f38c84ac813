// A reviewer opens what changed of a job whose chassis changed with it: each side is judged by the chassis of its own revision.
import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { testIn } from './window';
import { openFile, problems, screenshot } from './workbench-page';

const job = 'jobs/w-2001.readings.yaml';
const chassis = 'specs/marten.chassis.yaml';

/** A copy of a folder as a repository, where the left rail's tip stood 10 mm further out in the commit, and a key was misspelt. */
const repositoryOf = (source: string): string => {
  const folder = mkdtempSync(path.join(tmpdir(), 'framewright-git-'));
  cpSync(source, folder, { recursive: true });
  const git = (...args: string[]) => execFileSync('git', args, { cwd: folder, stdio: 'pipe' });
  const [now, sheet] = [job, chassis].map((name) => readFileSync(path.join(folder, name), 'utf8'));
  const write = (name: string, text: string): void => writeFileSync(path.join(folder, name), text);
  write(chassis, sheet.replace('both: [3012, 452, 352]', 'both: [3012, 462, 352]'));
  write(job, now.replace('technician: jm', 'technican: jm'));
  mkdirSync(path.join(folder, '.vscode'));
  write(
    '.vscode/settings.json',
    '{ "git.enabled": true, "diffEditor.useInlineViewWhenSpaceIsLimited": false }\n',
  );
  git('init', '-q', '-b', 'main');
  git('add', '-A');
  git('-c', 'user.name=rk', '-c', 'user.email=rk@pinefield.invalid', 'commit', '-q', '-m', 'first');
  write(chassis, sheet);
  write(job, now);
  return folder;
};

const test = testIn(repositoryOf(path.join(import.meta.dirname, '../fixtures/workspace')));

/** What is shown behind the row of a point on one side: it is drawn beside the text, and is no part of it. */
const behind = (page: Page, side: 'original' | 'modified', point: string): Promise<string> =>
  page
    .locator(`.monaco-diff-editor .${side} .view-line`, { hasText: point })
    .first()
    .evaluate((row) =>
      [...row.querySelectorAll('span')]
        .flatMap((each) => ['::before', '::after'].map((part) => getComputedStyle(each, part).content))
        .filter((content) => content.startsWith('"'))
        .join(' ')
        .replaceAll('\u00a0', ' '),
    );

test('both sides of a git diff are judged by their own revision', async ({ ownPage: page }) => {
  await openFile(page, job);
  // room for both sides
  await page.keyboard.press('Control+B');
  // it is there when git has told what changed
  await page
    .locator('.editor-actions')
    .getByRole('button', { name: /^Open Changes/ })
    .first()
    .click();
  await page.locator('.editor.original .view-line', { hasText: 'technican' }).waitFor();
  await expect.poll(() => behind(page, 'modified', 'rail-tip-upper.L')).toMatch(/! .*10\.7 outboard/);
  // the same reading, less the 10 mm
  await expect.poll(() => behind(page, 'original', 'rail-tip-upper.L')).toMatch(/(?<!1)0\.7 outboard/);
  expect(await behind(page, 'original', 'rail-tip-upper.L')).not.toContain('!');
  await screenshot(page, 'git-diff');
  const told = (await (await problems(page)).allTextContents()).join('\n');
  expect(told).toContain('rail-tip-upper.L');
  expect(told).not.toContain('technican');
});
