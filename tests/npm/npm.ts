import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';

export const root = path.join(import.meta.dirname, '../..');
/** The package as the build lays it out. */
export const packageFolder = path.join(root, 'server/package');

/** What an npm around this run was told is not for the one that it starts. */
const environment = Object.fromEntries(
  Object.entries(process.env).filter(([name]) => !/^npm_/i.test(name) && name !== 'INIT_CWD'),
);

const runs =
  (program: string, own: readonly string[]) =>
  (cwd: string, args: readonly string[], env: Record<string, string> = {}): string =>
    execFileSync(program, [...own, ...args], {
      cwd,
      encoding: 'utf8',
      env: { ...environment, ...env },
      stdio: ['ignore', 'pipe', 'pipe'],
      shell: process.platform === 'win32',
      maxBuffer: 1e8,
    });

/** Runs npm in a folder; gives what it printed, throws where it fails. */
export const npm = runs('npm', ['--no-audit', '--no-fund', '--no-update-notifier']);
/** The same of npx. */
export const npx = runs('npx', ['--no-update-notifier']);

/** Packs what stands in a folder into another; gives the archive's path. */
export function packed(folder: string, into: string): string {
  npm(folder, ['pack', '--silent', '--ignore-scripts', '--pack-destination', into]);
  const [archive, ...more] = readdirSync(into).filter((name) => name.endsWith('.tgz'));
  if (archive === undefined || more.length > 0) throw new Error(`not one archive in ${into}`);
  return path.join(into, archive);
}

export const sumOfFile = (file: string): string =>
  createHash('sha256').update(readFileSync(file)).digest('hex');
