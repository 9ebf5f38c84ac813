// A run that is killed while it writes: the file is the whole old one or the whole new one, and what was left is cleared up.
import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { buildSync } from 'esbuild';
import { expect, test } from 'vitest';
import { seededRandom } from '../published/seeded-random';
import { root } from './framewright';

/** Letters of one page; both are long, so that there is time to be killed in. */
const length = 3_000_000;
const pages = ['a', 'b'].map((letter) => `ours ${letter.repeat(length)}`);

const writer = `
import { textWritten } from ${JSON.stringify(path.join(root, 'server/src/node/write.ts'))};
const pages = ['a', 'b'].map((letter) => 'ours ' + letter.repeat(${length}));
const over = { force: false, isOurs: (start) => start.includes('ours') };
for (let i = 0; ; i++) {
  const fault = textWritten(process.argv[2], pages[i % 2], over);
  if (fault !== null) throw new Error(fault);
  require('node:fs').writeSync(1, '.');
}`;

/** Lets it write until it wrote so often and a while longer, then kills it; gives how often it wrote. */
const writtenUntilKilled = (program: string, page: string, times: number, ms: number): Promise<number> =>
  new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [program, page], { stdio: ['ignore', 'pipe', 'inherit'] });
    let written = 0;
    let isKilling = false;
    child.stdout.on('data', (dots: Buffer) => {
      written += dots.length;
      if (written < times || isKilling) return;
      isKilling = true;
      setTimeout(() => child.kill('SIGKILL'), ms);
    });
    child.on('error', reject);
    child.on('exit', (_, signal) =>
      signal === 'SIGKILL' ? resolve(written) : reject(new Error('it ended of itself')),
    );
  });

test('100 writes, killed at random moments', async () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'framewright-'));
  const shop = mkdtempSync(path.join(tmpdir(), 'framewright-'));
  const [program, page] = [path.join(folder, 'writer.cjs'), path.join(shop, 'page.html')];
  const { uniform } = seededRandom(20261126);
  let written = 0;
  let kills = 0;
  let leftovers = 0;
  try {
    buildSync({
      stdin: { contents: writer, resolveDir: root, loader: 'js' },
      bundle: true,
      platform: 'node',
      outfile: program,
    });
    while (written < 100) {
      written += await writtenUntilKilled(program, page, Math.ceil(uniform(0, 12)), uniform(0, 25));
      kills++;
      const text = readFileSync(page, 'utf8');
      expect(pages.includes(text), `${text.length} letters, ${text.slice(0, 20)}`).toBe(true);
      const others = readdirSync(shop).filter((name) => name !== 'page.html');
      leftovers += others.length;
      // the one of the run that was just killed at most
      expect(others.length).toBeLessThanOrEqual(1);
    }
    expect(kills).toBeGreaterThanOrEqual(5);
    expect(leftovers).toBeGreaterThan(0);
  } finally {
    for (const each of [folder, shop]) rmSync(each, { recursive: true, force: true });
  }
}, 120_000);
