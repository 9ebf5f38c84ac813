// A drawing as a file of its own: whole or not at all, and clear words where there is none.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { framewright, patienceMs, program, repository, root } from './framewright';

const sample = (name: string): string => readFileSync(path.join(root, 'samples', name), 'utf8');
let shop: ReturnType<typeof repository>;
beforeAll(() => {
  shop = repository({
    'specs/marten-hatch.chassis.yaml': sample('specs/marten-hatch.chassis.yaml'),
    'jobs/w-1187.readings.yaml': sample('jobs/w-1187-as-received.readings.yaml'),
    'drawings/notes.txt': 'no file of ours',
  });
});
afterAll(() => shop.gone());

const job = 'jobs/w-1187.readings.yaml';
const inShop = (name: string): string => path.join(shop.folder, name);

/** With a browser of our choosing, and nothing else to be found. */
function drawn(browser: string, picture: string, ...more: string[]) {
  const { status, stderr } = spawnSync(process.execPath, [program, 'draw', job, '-o', picture, ...more], {
    cwd: shop.folder,
    encoding: 'utf8',
    timeout: patienceMs,
    env: { ...process.env, PATH: '', CHROMIUM: browser },
  });
  return { status, stderr };
}

test('an SVG is written twice with the same bytes, and needs no browser', () => {
  expect(drawn('', 'drawings/plan.svg')).toEqual({ status: 0, stderr: '' });
  const first = readFileSync(inShop('drawings/plan.svg'), 'utf8');
  expect(first).toMatch(/^<svg [^>]*class="fw-drawing"/);
  expect(drawn('', 'drawings/plan.svg').status).toBe(0);
  expect(readFileSync(inShop('drawings/plan.svg'), 'utf8')).toBe(first);
});

test('another ending than .svg or .png is refused, and nothing is written', () => {
  const { code, err } = framewright(['draw', job, '-o', 'drawings/plan.pdf'], shop.folder);
  expect({ code, asks: err.includes('-o NAME.svg or -o NAME.png') }).toEqual({ code: 2, asks: true });
  expect(existsSync(inShop('drawings/plan.pdf'))).toBe(false);
});

test('says so where no browser is found', () => {
  const { status, stderr } = drawn('', 'drawings/plan.png');
  expect(status).toBe(2);
  expect(stderr).toContain('plan.png was not written: no Chromium was found to make the picture with');
  expect(existsSync(inShop('drawings/plan.png'))).toBe(false);
});

test.each([
  ['exit 1', 'could not make the picture'],
  ['exit 0', 'wrote no picture'],
  [
    `for a in "$@"; do case "$a" in --screenshot=*) echo "no picture" > "\${a#--screenshot=}";; esac; done`,
    'something other',
  ],
])('keeps the old picture where the browser does no more than `%s`', (script, words) => {
  writeFileSync(inShop('drawings/kept.png'), 'an old picture');
  writeFileSync(inShop('browser.sh'), `#!/bin/sh\n${script}\n`, { mode: 0o755 });
  const { status, stderr } = drawn(inShop('browser.sh'), 'drawings/kept.png', '--force');
  expect({ status, words: stderr.includes(words) }, stderr).toEqual({ status: 2, words: true });
  expect(readFileSync(inShop('drawings/kept.png'), 'utf8')).toBe('an old picture');
  expect(readdirSync(inShop('drawings')).filter((each) => each.includes('writing'))).toEqual([]);
});
