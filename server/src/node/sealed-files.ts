import { randomBytes } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { sumOf } from './witness';

/** Files that the program writes for itself. The sum of a text stands before it: half a file, or one that somebody wrote into, is as none. */

const sumLength = sumOf('').length;

/** What was written as JSON; null where there is nothing whole. */
export function sealedText<Content>(path: string): Content | null {
  try {
    const bytes = readFileSync(path);
    const body = bytes.subarray(sumLength);
    return bytes.toString('latin1', 0, sumLength) === sumOf(body) ? JSON.parse(body.toString()) : null;
  } catch {
    return null;
  }
}

/** One folder after the other: where a system will have none, as in `/proc`, Node's own way to make all of them never ends. */
function makeFolder(path: string): void {
  if (existsSync(path)) return;
  const above = dirname(path);
  if (above !== path) makeFolder(above);
  try {
    mkdirSync(path, { mode: 0o700 });
  } catch (error) {
    // somebody else was faster
    if (!existsSync(path)) throw error;
  }
}

/** Put in place by renaming, so that who reads it meets a whole one; false where nothing can be kept. */
export function written(path: string, body: string): boolean {
  const temporary = `${path}.${randomBytes(6).toString('hex')}`;
  try {
    makeFolder(join(path, '..'));
    writeFileSync(temporary, `${sumOf(body)}${body}`, { mode: 0o600 });
    renameSync(temporary, path);
    return true;
  } catch {
    try {
      rmSync(temporary, { force: true });
    } catch {}
    return false;
  }
}
