import { createHash } from 'node:crypto';
import { lstatSync, readdirSync, rmSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { codeOf } from './error-code';

/** Temporary folders carry who made them in their names, so that those of a run that was killed are told from those in use. */

/** Nobody writes a file or prints a page for so long, ms. */
const oldMs = 24 * 3600 * 1000;

/** Numbers of processes mean something on one machine only. */
const machine = createHash('sha256').update(hostname()).digest('hex').slice(0, 8);

/** Begins the name of a temporary folder; six letters follow (`mkdtemp`). */
export const signedName = (prefix: string): string => `${prefix}${machine}-${process.pid}-`;

/** Takes away what killed runs left in a folder: made for the same purpose, by this user, and its process dead or it very old. */
export function leftBehindSwept(folder: string, prefix: string): void {
  let names: string[];
  try {
    names = readdirSync(folder);
  } catch {
    return;
  }
  for (const name of names) {
    if (!name.startsWith(prefix)) continue;
    const signed = /^([0-9a-f]{8})-(\d{1,10})-[A-Za-z0-9]{6}$/.exec(name.slice(prefix.length));
    if (signed === null) continue;
    try {
      const path = join(folder, name);
      const status = lstatSync(path);
      if (!status.isDirectory() || (process.getuid && status.uid !== process.getuid())) continue;
      const isDead = signed[1] === machine && !isAlive(Number(signed[2]));
      if (isDead || Date.now() - status.mtimeMs > oldMs) rmSync(path, { recursive: true, force: true });
    } catch {
      // somebody else was quicker, or it is in use: another time
    }
  }
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // another user's
    return codeOf(error) !== 'ESRCH';
  }
}
