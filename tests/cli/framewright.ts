/** Runs the program as a person does, and keeps what it says. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect } from 'vitest';

export const root = path.join(import.meta.dirname, '../..');
export const program = path.join(root, 'server/bin/framewright.js');

export interface Said {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Long past what anything here should take: a hang is a failure, a busy machine is not. */
export const patienceMs = 60_000;

/** What is kept of a run is for the runs of the same test file. */
const ownCache = mkdtempSync(path.join(tmpdir(), 'framewright-cache-'));
process.on('exit', () => rmSync(ownCache, { recursive: true, force: true }));

const caches = (folder: string) => ({ XDG_CACHE_HOME: folder, LOCALAPPDATA: folder });

/** Runs it; whatever was asked, no answer may be a stack trace, a signal or a wait without end. */
export function framewright(
  args: readonly string[],
  cwd = root,
  input?: string,
  environment: NodeJS.ProcessEnv = {},
): Said {
  const { status, stdout, stderr, error, signal } = spawnSync(process.execPath, [program, ...args], {
    cwd,
    encoding: 'utf8',
    input,
    timeout: patienceMs,
    maxBuffer: 256 * 1024 * 1024,
    env: { ...process.env, NO_COLOR: undefined, FORCE_COLOR: undefined, ...caches(ownCache), ...environment },
  });
  expect(error, args.join(' ')).toBeUndefined();
  expect(signal).toBeNull();
  expect(stdout + stderr).not.toMatch(/\n\s+at .+:\d+:\d+|a fault of the program|Error:/);
  return { code: status, out: stdout, err: stderr };
}

/** A repository of its own with some files, outside of this one; `gone` takes it away again. */
export function repository(files: Record<string, string | Uint8Array>): { folder: string; gone(): void } {
  const folder = mkdtempSync(path.join(tmpdir(), 'framewright-'));
  mkdirSync(path.join(folder, '.git'));
  for (const [name, content] of Object.entries(files)) {
    mkdirSync(path.dirname(path.join(folder, name)), { recursive: true });
    writeFileSync(path.join(folder, name), content);
  }
  return { folder, gone: () => rmSync(folder, { recursive: true, force: true }) };
}
