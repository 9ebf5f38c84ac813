// A thread dies in the middle of a check: one file says so, and not a byte of what is said of the others changes.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { check, reportingHere } from '../../server/src/commands/check';
import type { Reporting } from '../../server/src/commands/check-selected';
import { reportingOf } from '../../server/src/node/cached-reports';
import { nodeFiles } from '../../server/src/node/files';
import { madeByThreads } from '../../server/src/node/workers';
import { repository } from './framewright';

const job = (comment: string) => `framewright: readings/1 ${comment}
chassis: ../specs/teal.chassis.yaml
timeline:
  - measure: as received
    readings: { latch: [1, 2, 3] }
`;
const nameOf = (i: number): string => `jobs/w-${String(i).padStart(3, '0')}.readings.yaml`;
const all = Array.from({ length: 72 }, (_, i) => nameOf(i));
/** Handed to the first thread, and to the second. */
const deadly = { first: 3, second: 9 };
const patienceMs = 120_000;

let scripts: string;
beforeAll(async () => {
  scripts = mkdtempSync(path.join(tmpdir(), 'framewright-'));
  writeFileSync(path.join(scripts, 'never-begins.cjs'), 'throw new Error("it cannot begin");');
  await build({
    entryPoints: [path.join(import.meta.dirname, 'failing-thread.ts')],
    bundle: true,
    platform: 'node',
    format: 'cjs',
    outfile: path.join(scripts, 'failing.cjs'),
    logLevel: 'warning',
  });
}, patienceMs);
afterAll(() => rmSync(scripts, { recursive: true, force: true }));

async function said(files: Record<string, string>, reporting: Reporting) {
  const { folder, gone } = repository({
    'specs/teal.chassis.yaml':
      'framewright: chassis/1\nvehicle: Teal\npoints:\n  latch: { centre: [2700, 0, 780] }\n',
    ...files,
  });
  try {
    const lines: string[] = [];
    const complaints: string[] = [];
    const code = await check(
      nodeFiles(),
      all.map((name) => ({ path: name, uri: pathToFileURL(path.join(folder, name)).href })),
      { open: false, verbose: true, summaries: true, coloured: false },
      { print: (line) => lines.push(line), complain: (line) => complaints.push(line) },
      reporting,
    );
    return { code, lines, complaints };
  } finally {
    gone();
  }
}

const shop = (comments: Record<string, string> = {}) =>
  Object.fromEntries(all.map((name) => [name, job(comments[name] ?? '')]));
const byThreads = (script: string) => reportingOf(madeByThreads(path.join(scripts, script), 3), null);

test.each([
  ['ends the thread', 'the thread that judged it'],
  ['rejects a promise', 'something that it did not wait for'],
  ['throws later', 'something that it did not wait for'],
])(
  'two files: one %s, and so does the other',
  async (way, where) => {
    const spoilt = nameOf(deadly.first);
    const files = shop({ [spoilt]: `# ${way}`, [nameOf(deadly.second)]: `# ${way}` });
    const sound = await said(files, reportingHere(nodeFiles()));
    const now = await said(files, byThreads('failing.cjs'));
    expect(now.code).toBe(2);
    expect(now.complaints).toEqual([]);
    const faults = now.lines.filter((line) => line.includes('[internal/fault]'));
    expect(faults.map((line) => line.split(':')[0])).toEqual([spoilt, nameOf(deadly.second)]);
    for (const line of faults) expect(line).toContain(`not judged: the program failed in ${where} (`);
    const others = (lines: readonly string[]) => {
      let isOfOther = true;
      return lines.slice(0, -1).filter((line) => {
        const name = /^(jobs\/\S+?):/.exec(line)?.[1];
        if (name) isOfOther = name !== spoilt && name !== nameOf(deadly.second);
        return isOfOther;
      });
    };
    expect(others(now.lines)).toEqual(others(sound.lines));
    expect(others(now.lines).length).toBeGreaterThan(70);
  },
  patienceMs,
);

test(
  'threads that cannot begin leave their work to the one that can',
  async () => {
    const sound = await said(shop(), reportingHere(nodeFiles()));
    expect(await said(shop(), byThreads('never-begins.cjs'))).toEqual(sound);
    expect(await said(shop(), byThreads('is-not-there.cjs'))).toEqual(sound);
    expect(sound.code).toBe(0);
  },
  patienceMs,
);
