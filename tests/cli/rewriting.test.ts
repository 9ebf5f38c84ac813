// `fix` and `format` on files of a disk.
import { execFileSync } from 'node:child_process';
import {
  chmodSync,
  lstatSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, beforeEach, expect, test, vi } from 'vitest';
import { framewright, repository } from './framewright';

vi.setConfig({ testTimeout: 120_000 });

const slip = `framewright: readings/1
chassis: ./b.chassis.yaml
technican: rk
timeline:
  - measure: as received
    readings:
      latch: [2701, 0, 780]
      # é, not ASCII
      hole:   [1, 2, 3]
`;
const body = `framewright: chassis/1
vehicle: Teal
source: { kind: published, reference: sheet 7, date: 2026-01-12 }
points:
  latch: { centre: [2700, 0, 780] }
`;

let shop: ReturnType<typeof repository>;
const job = (): string => path.join(shop.folder, 'jobs/a.readings.yaml');
beforeAll(() => {
  shop = repository({ 'jobs/b.chassis.yaml': body, 'jobs/a.readings.yaml': slip });
});
afterAll(() => shop.gone());
beforeEach(() => {
  writeFileSync(job(), slip);
  chmodSync(job(), 0o640);
});

test('fix writes the file whole, with its permissions, and leaves nothing behind', () => {
  const { code, out, err } = framewright(['fix', 'jobs'], shop.folder);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(out).toBe('jobs/a.readings.yaml: 1 fixed\n1 finding fixed in 1 of 2 files\n');
  expect(readFileSync(job(), 'utf8')).toBe(slip.replace('technican', 'technician'));
  expect(statSync(job()).mode & 0o777).toBe(0o640);
  expect(readdirSync(path.dirname(job())).sort()).toEqual(['a.readings.yaml', 'b.chassis.yaml']);
});

test('fix --dry-run prints what git takes', () => {
  const { code, out } = framewright(['fix', '--dry-run', 'jobs'], shop.folder);
  expect(code).toBe(0);
  expect(readFileSync(job(), 'utf8')).toBe(slip);
  execFileSync('git', ['apply', '-'], { cwd: shop.folder, input: out });
  expect(readFileSync(job(), 'utf8')).toBe(slip.replace('technican', 'technician'));
});

test('format, and format --check before and after', () => {
  expect(framewright(['format', '--check', 'jobs'], shop.folder).code).toBe(1);
  expect(readFileSync(job(), 'utf8')).toBe(slip);
  expect(framewright(['format', 'jobs'], shop.folder).code).toBe(0);
  expect(readFileSync(job(), 'utf8')).toBe(
    slip.replace('[2701, 0, 780]', '[2701, 0, 780]').replace('hole:   [1, 2, 3]', 'hole:  [   1, 2,   3]'),
  );
  expect(framewright(['format', '--check', 'jobs'], shop.folder)).toMatchObject({ code: 0 });
});

test.each(['fix', 'format'])('%s does not write over a file that is read-only', (command) => {
  chmodSync(job(), 0o440);
  const { code, err } = framewright([command, 'jobs'], shop.folder);
  expect(code).toBe(2);
  // there is no option to force it
  expect(err).toContain('cannot be written: it is read-only\n');
  expect(readFileSync(job(), 'utf8')).toBe(slip);
});

test.each(['fix', 'format'])(
  '%s writes a file once that has two names, and the link stays one',
  (command) => {
    const link = path.join(shop.folder, 'jobs/link.readings.yaml');
    symlinkSync('a.readings.yaml', link);
    try {
      const { code, err } = framewright(
        [command, 'jobs/a.readings.yaml', 'jobs/link.readings.yaml'],
        shop.folder,
      );
      expect({ code, err }).toEqual({ code: 0, err: '' });
      expect(readFileSync(job(), 'utf8')).not.toBe(slip);
      expect(lstatSync(link).isSymbolicLink()).toBe(true);
    } finally {
      rmSync(link);
    }
  },
);

test.each(['fix', 'format'])('%s leaves bytes that are no text', (command) => {
  const bytes = Buffer.concat([Buffer.from(slip), Buffer.from([0x23, 0x20, 0xe9, 0x0a])]);
  writeFileSync(job(), bytes);
  expect(framewright([command, 'jobs'], shop.folder).code).toBe(2);
  expect(readFileSync(job()).equals(bytes)).toBe(true);
});

test.each([
  [['fix'], 'fix needs a file or a folder'],
  [['format'], 'format needs a file or a folder'],
  [['format', '--unsafe', 'a'], 'format has no --unsafe'],
])('%s is wrong usage', (args, says) => {
  const { code, err } = framewright(args);
  expect([code, err.startsWith(`framewright: ${says}`)]).toEqual([2, true]);
});
