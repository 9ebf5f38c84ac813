// The record as a file: whole or not at all, and clear words where there is none.
import { execFileSync, spawnSync } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { framewright, patienceMs, program, repository, root } from './framewright';

const sample = (name: string): string => readFileSync(path.join(root, 'samples', name), 'utf8');
const ours = '<!doctype html>\n<html lang="en">\n<head>\n<title>Dimensional record W-1</title>\n';
let shop: ReturnType<typeof repository>;
beforeAll(() => {
  shop = repository({
    'specs/marten-hatch.chassis.yaml': sample('specs/marten-hatch.chassis.yaml'),
    'jobs/w-1187.readings.yaml': sample('jobs/w-1187-as-received.readings.yaml'),
    'records/old.html': `${ours}an old record`,
    'records/full.html/keep.txt': 'a folder with the name of a page',
    'records/file': 'no folder',
    'notes.txt': 'no file of ours',
  });
});
afterAll(() => shop.gone());

const job = 'jobs/w-1187.readings.yaml';
const report = (...args: string[]) => framewright(['report', ...args], shop.folder);
const records = () => readdirSync(path.join(shop.folder, 'records')).sort();
const record = (name: string) => readFileSync(path.join(shop.folder, 'records', name), 'utf8');

test('writes over an old record, twice the same bytes, and leaves nothing else behind', () => {
  const before = records();
  expect(report(job, '-o', 'records/old.html')).toEqual({ code: 0, out: '', err: '' });
  const first = record('old.html');
  expect(first).toMatch(/^<!doctype html>[\s\S]*<\/html>\n$/);
  // letters beyond ASCII, of ours and of a file
  expect(first).toContain('the car’s front to the right');
  expect(first).toMatch(/W-1187<\/bdi> · <bdi>Marten/);
  expect(report(job, '--output', 'records/old.html').code).toBe(0);
  expect(record('old.html')).toBe(first);
  expect(records()).toEqual(before);
});

test('is the same from another folder and by another name of the file', () => {
  report(job, '-o', 'records/here.html');
  const said = framewright(
    ['report', path.join(shop.folder, job), '-o', 'here.html'],
    path.join(shop.folder, 'records'),
  );
  expect(said.code).toBe(0);
  report(job, '-o', 'records/there.html');
  expect(record('here.html')).toBe(record('there.html'));
});

test('follows a link instead of taking its place', () => {
  mkdirSync(path.join(shop.folder, 'kept'));
  writeFileSync(path.join(shop.folder, 'kept/page.html'), ours);
  symlinkSync(path.join(shop.folder, 'kept/page.html'), path.join(shop.folder, 'linked.html'));
  expect(report(job, '-o', 'linked.html').code).toBe(0);
  expect(readFileSync(path.join(shop.folder, 'kept/page.html'), 'utf8')).toContain('Dimensional record');
});

describe('what is not written over but with --force', () => {
  const at = (name: string) => path.join(shop.folder, 'records', name);
  const old = (name: string, text: string, mode = 0o644) => {
    writeFileSync(at(name), text);
    chmodSync(at(name), mode);
  };

  test.each([
    [
      'foreign.html',
      '<!doctype html>\n<title>Bread and butter</title>\n',
      0o644,
      /not written by Framewright/,
    ],
    ['locked.html', ours, 0o444, /it is read-only/],
  ])('%s', (name, text, mode, words) => {
    old(name, text, mode);
    const { code, err } = report(job, '-o', `records/${name}`);
    expect(code).toBe(2);
    expect(err).toMatch(words);
    expect(record(name)).toBe(text);
    expect(report(job, '-o', `records/${name}`, '--force')).toEqual({ code: 0, out: '', err: '' });
    expect(record(name)).toContain('W-1187');
    expect(statSync(at(name)).mode & 0o777).toBe(mode);
  });

  test('a FIFO; a device not at all', () => {
    execFileSync('mkfifo', [at('fifo.html')]);
    symlinkSync('/dev/null', at('device.html'));
    expect(report(job, '-o', 'records/fifo.html').err).toMatch(/it is not an ordinary file/);
    for (const force of [[], ['--force']])
      expect(report(job, '-o', 'records/device.html', ...force)).toEqual({
        code: 2,
        out: '',
        err: 'framewright: records/device.html cannot be written: it is a device\n',
      });
    expect(statSync('/dev/null').isCharacterDevice()).toBe(true);
    expect(report(job, '-o', 'records/fifo.html', '--force').code).toBe(0);
    expect(record('fifo.html')).toContain('W-1187');
  });

  test('a foreign PDF', () => {
    old('foreign.pdf', '%PDF-1.4 /Title (Bread and butter)');
    const browser = path.join(shop.folder, 'never.sh');
    writeFileSync(browser, '#!/bin/sh\nexit 1\n', { mode: 0o755 });
    const { status, stderr } = spawnSync(
      process.execPath,
      [program, 'report', job, '-o', 'records/foreign.html', '--force', '--pdf'],
      { cwd: shop.folder, encoding: 'utf8', timeout: patienceMs, env: { ...process.env, CHROMIUM: browser } },
    );
    expect({ status, stderr }).toEqual({ status: 2, stderr: expect.stringContaining('could not print') });
    const refused = spawnSync(
      process.execPath,
      [program, 'report', job, '-o', 'records/foreign.html', '--pdf'],
      { cwd: shop.folder, encoding: 'utf8', timeout: patienceMs, env: { ...process.env, CHROMIUM: browser } },
    );
    expect(refused.stderr).toMatch(/foreign\.pdf cannot be written: .* not written by Framewright/);
    expect(record('foreign.pdf')).toBe('%PDF-1.4 /Title (Bread and butter)');
  });
});

test('a link that leads to no file yet stays a link, and the file is made', () => {
  symlinkSync('../kept/new.html', path.join(shop.folder, 'records/dangling.html'));
  expect(report(job, '-o', 'records/dangling.html').code).toBe(0);
  expect(readlinkSync(path.join(shop.folder, 'records/dangling.html'))).toBe('../kept/new.html');
  expect(readFileSync(path.join(shop.folder, 'kept/new.html'), 'utf8')).toContain('W-1187');
});

describe('where nothing can be written or read it exits 2, says why in a line, and touches nothing', () => {
  test.each([
    [[job, '-o', 'nowhere/job.html'], /nowhere\/job\.html cannot be written: its folder does not exist/],
    [[job, '-o', 'records/full.html'], /full\.html cannot be written: it is a folder/],
    [[job, '-o', 'records/file/job.html'], /job\.html cannot be written: its folder is a file/],
    [[job, '-o', `records/${'x'.repeat(300)}.html`], /cannot be written: its name is too long/],
    [['jobs/none.readings.yaml', '-o', 'records/new.html'], /jobs\/none\.readings\.yaml: /],
    [['jobs', '-o', 'records/new.html'], /jobs: /],
    [['notes.txt', '-o', 'records/new.html'], /notes\.txt: /],
    [['specs/marten-hatch.chassis.yaml', '-o', 'records/new.html'], /a report is made from a readings file/],
  ])('%j', (args, words) => {
    const before = records();
    const { code, out, err } = report(...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(words);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
    expect(records()).toEqual(before);
    expect(existsSync(path.join(shop.folder, 'nowhere'))).toBe(false);
  });
});

describe('wrong usage', () => {
  test.each([
    [[], 'report needs one readings file'],
    [[job, job, '-o', 'a.html'], 'report needs one readings file'],
    [[job], 'report needs a page to write: -o NAME.html'],
    // a slip of the hand must not write over a job
    [[job, '-o', job], 'report needs a page to write: -o NAME.html'],
    [[job, '-o', '.html'], 'report needs a page to write: -o NAME.html'],
    [[job, '-o', 'a.html', '--paper', 'a5'], '--paper is a4 or letter'],
    [[job, '-o', 'a.html', '--open'], 'report has no --open'],
  ])('%j', (args, words) => {
    const { code, err } = report(...args);
    expect(code).toBe(2);
    expect(err.startsWith(`framewright: ${words}`)).toBe(true);
    expect(readFileSync(path.join(shop.folder, job), 'utf8')).toBe(
      sample('jobs/w-1187-as-received.readings.yaml'),
    );
  });
});

describe('as PDF', () => {
  /** With a browser of our choosing, and nothing else to be found. */
  function printed(browser: string, page: string) {
    const { status, stderr } = spawnSync(process.execPath, [program, 'report', job, '-o', page, '--pdf'], {
      cwd: shop.folder,
      encoding: 'utf8',
      timeout: patienceMs,
      env: { ...process.env, PATH: '', CHROMIUM: browser },
    });
    return { status, stderr };
  }

  test('says so where no browser is found; the page is there', () => {
    const { status, stderr } = printed('', 'records/unprinted.html');
    expect(status).toBe(2);
    expect(stderr).toMatch(
      /unprinted\.html was written, but no Chromium was found to print it with: open it/,
    );
    expect(record('unprinted.html')).toContain('Dimensional record');
    expect(records()).not.toContain('unprinted.pdf');
  });

  test('keeps the old one where the browser fails or prints something else', () => {
    const old = '%PDF-1.4 /Title (Dimensional record W-1) an old print';
    writeFileSync(path.join(shop.folder, 'records/kept.pdf'), old);
    const browsers = {
      'failing.sh': ['exit 1', 'could not print'],
      'idle.sh': ['exit 0', 'wrote no PDF'],
      'other.sh': [
        `for a in "$@"; do case "$a" in --print-to-pdf=*) echo "%PDF-1.4 /Title (no such file)" > "\${a#--print-to-pdf=}";; esac; done`,
        'printed something other than the page',
      ],
    };
    for (const [name, [script, words]] of Object.entries(browsers)) {
      const browser = path.join(shop.folder, name);
      writeFileSync(browser, `#!/bin/sh\n${script}\n`, { mode: 0o755 });
      const { status, stderr } = printed(browser, 'records/kept.html');
      expect({ status, words: stderr.includes(words) }, stderr).toEqual({ status: 2, words: true });
      expect(record('kept.pdf')).toBe(old);
      expect(records().filter((each) => each.includes('writing'))).toEqual([]);
    }
  });
});
