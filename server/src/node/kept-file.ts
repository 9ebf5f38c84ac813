import { createHash, randomBytes } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, isAbsolute, join } from 'node:path';

/** Files in the user's folder for what can be made again: each is whole and as it was written, or it is as none. */

/** The user's folder for what can be made again; null where there is none. */
export function cacheFolder(
  environment: NodeJS.ProcessEnv = process.env,
  platform: NodeJS.Platform = process.platform,
  home: () => string = homedir,
): string | null {
  const given = platform === 'win32' ? environment.LOCALAPPDATA : environment.XDG_CACHE_HOME;
  // a path that starts nowhere is no answer (XDG Base Directory Specification)
  if (given !== undefined && isAbsolute(given)) return join(given, 'framewright');
  try {
    return join(home(), platform === 'win32' ? 'AppData/Local' : '.cache', 'framewright');
  } catch {
    return null;
  }
}

export const sumOf = (content: string | Uint8Array): string =>
  createHash('sha256').update(content).digest('base64url');

const sumLength = sumOf('').length;

/** What was kept; its sum comes first: half a file, or one that somebody wrote into, is none. Null also where it cannot be read. */
export function keptIn(path: string): Buffer | null {
  try {
    const bytes = readFileSync(path);
    const body = bytes.subarray(sumLength);
    return bytes.toString('latin1', 0, sumLength) === sumOf(body) ? body : null;
  } catch {
    return null;
  }
}

/** The same of what was kept as JSON. */
export function keptJson<Content>(path: string): Content | null {
  const body = keptIn(path);
  try {
    return body === null ? null : JSON.parse(body.toString());
  } catch {
    return null;
  }
}

/** Put in place by renaming, so that who reads it meets a whole one; false where nothing can be kept. */
export function keptAs(path: string, body: string | Uint8Array): boolean {
  const temporary = `${path}.${randomBytes(6).toString('hex')}`;
  try {
    makeFolder(dirname(path));
    writeFileSync(temporary, Buffer.concat([Buffer.from(sumOf(body)), Buffer.from(body)]), { mode: 0o600 });
    renameSync(temporary, path);
    return true;
  } catch {
    try {
      rmSync(temporary, { force: true });
    } catch {}
    return false;
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
