import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { failuresIn, retriedIn } from './vitest-report.mjs';

const root = path.join(import.meta.dirname, '..');

it('of a run of vitest names the tests that failed, and those that passed at a later try only', () => {
  mkdirSync(path.join(root, 'tests/output'), { recursive: true });
  const folder = mkdtempSync(path.join(root, 'tests/output/retried-'));
  try {
    writeFileSync(
      path.join(folder, 'tries.test.ts'),
      `import { expect, it } from 'vitest';
let tries = 0;
it('passes at once', () => expect(1).toBe(1));
it('passes at the third try', () => expect(++tries).toBe(3));
it('never passes', () => expect(1).toBe(2));
`,
    );
    writeFileSync(
      path.join(folder, 'vitest.config.ts'),
      'export default { test: { root: import.meta.dirname, retry: 2 } };\n',
    );
    const written = path.join(folder, 'report.json');
    const config = path.join(folder, 'vitest.config.ts');
    spawnSync('npx', ['vitest', 'run', '--config', config, '--reporter=json', `--outputFile=${written}`], {
      cwd: root,
    });
    const report = JSON.parse(readFileSync(written, 'utf8'));
    expect(retriedIn(report, folder)).toEqual([
      expect.stringMatching(/^tries\.test\.ts: passes at the third try, at try 3 \(.*expected 1 to be 3/),
    ]);
    expect(failuresIn(report, folder)).toEqual([
      expect.stringMatching(/^tries\.test\.ts: never passes\n.*expected 1 to be 2/),
    ]);
  } finally {
    rmSync(folder, { recursive: true });
  }
}, 60_000);
