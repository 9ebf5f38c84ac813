import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, test } from 'vitest';
import { framewright, patienceMs, root } from './framewright';

const cache = 'dist/cli-check.cache';

test('the program is built with what V8 made of it, and another V8’s is passed over', () => {
  expect(statSync(path.join(root, 'server', cache)).size).toBeGreaterThan(100_000);
  expect(readFileSync(path.join(root, 'server', cache), 'latin1')).not.toContain(root);
  const wanted = framewright(['check', 'samples/specs']);
  expect(wanted.out).toMatch(/^3 files: /m);
  const folder = mkdtempSync(path.join(tmpdir(), 'framewright-'));
  try {
    for (const part of ['bin', 'dist', 'package.json'])
      cpSync(path.join(root, 'server', part), path.join(folder, part), { recursive: true });
    for (const spoil of [
      () => writeFileSync(path.join(folder, cache), 'x'.repeat(5000)),
      () => rmSync(path.join(folder, cache)),
    ]) {
      spoil();
      const { status, stdout } = spawnSync(
        process.execPath,
        [path.join(folder, 'bin/framewright.js'), 'check', 'samples/specs'],
        { cwd: root, encoding: 'utf8', timeout: patienceMs },
      );
      expect(stdout).toBe(wanted.out);
      expect(status).toBe(wanted.code);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}, 60_000);
