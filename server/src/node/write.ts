import {
  closeSync,
  constants,
  fchmodSync,
  fsyncSync,
  lstatSync,
  mkdtempSync,
  openSync,
  readlinkSync,
  readSync,
  renameSync,
  rmSync,
  type Stats,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { codeOf, messageOf } from './error-code';
import { leftBehindSwept, signedName } from './leftovers';

/** Files written whole or not at all: everything that the command line writes goes through `fileWritten`. */

const reasons: Record<string, string> = {
  ENOENT: 'its folder does not exist',
  ENOTDIR: 'its folder is a file',
  EISDIR: 'it is a folder',
  EACCES: 'that is not permitted',
  EPERM: 'that is not permitted',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk is full',
  ENAMETOOLONG: 'its name is too long',
  EBUSY: 'another program has it open',
  ELOOP: 'its link leads to itself',
};

interface Overwriting {
  /** Tells a file of ours by its first bytes: another's is not written over. */
  isOurs(start: Buffer): boolean;
  /** Written over whosesoever it is and though it is read-only; null where nobody can ask for that. */
  readonly force: boolean | null;
}

/** So much of a file is looked at to tell whose it is, bytes. */
const mostLookedAt = 1 << 20;

/**
 * Makes a file in a folder of its own beside where it belongs, and puts it in place by renaming, when it is on the disk: who reads it
 * meets the old one or the new one, also after a crash. Where something fails nothing is left behind, and what a killed run left there
 * is taken away.
 * @param make writes the file at the path that it is given, in a folder that is removed afterwards; answers null, or what went wrong
 * @returns null, or why there is no new file, in words for a person
 */
export function fileWritten(
  path: string,
  over: Overwriting,
  make: (temporary: string) => string | null,
): string | null {
  let folder: string | null = null;
  try {
    const target = followed(path);
    const old = statSync(target, { throwIfNoEntry: false });
    const refused = old === undefined ? null : whyNotOver(target, old, over);
    if (refused !== null) return `${path} cannot be written: ${refused}`;
    // no leading dot: a browser in a sandbox of its own may not be let into hidden folders
    const prefix = `${basename(target).slice(0, 100)}.writing-`;
    leftBehindSwept(dirname(target), prefix);
    folder = mkdtempSync(join(dirname(target), signedName(prefix)));
    const temporary = join(folder, basename(target));
    const fault = make(temporary);
    if (fault !== null) return fault;
    brought(temporary, old?.isFile() ? old.mode : null);
    renameSync(temporary, target);
    broughtFolder(dirname(target));
    return null;
  } catch (error) {
    const code = codeOf(error) ?? messageOf(error);
    return `${path} cannot be written: ${reasons[code] ?? code}`;
  } finally {
    if (folder !== null) removed(folder);
  }
}

export const textWritten = (path: string, text: string, over: Overwriting): string | null =>
  fileWritten(path, over, (temporary) => {
    writeFileSync(temporary, text);
    return null;
  });

/** Why what stands there is not written over; null where it may be. */
function whyNotOver(target: string, old: Stats, { isOurs, force }: Overwriting): string | null {
  if (old.isDirectory()) return reasons.EISDIR;
  // in its place would be a file that no program takes for the device
  if (old.isCharacterDevice() || old.isBlockDevice()) return 'it is a device';
  if (force) return null;
  const help = (does: string): string => (force === null ? '' : ` (--force ${does} it)`);
  if (!old.isFile()) return `it is not an ordinary file${help('replaces')}`;
  // whoever may do everything is told by the mode alone
  if ((old.mode & 0o222) === 0 || !isWritable(target)) return `it is read-only${help('writes over')}`;
  return old.size === 0 || isOurs(startOf(target))
    ? null
    : `the file there was not written by Framewright${help('writes over')}`;
}

/** Opened, for a disk that is read-only lets nobody write whatever the mode says. */
function isWritable(path: string): boolean {
  try {
    closeSync(openSync(path, constants.O_WRONLY));
    return true;
  } catch (error) {
    if (['EACCES', 'EPERM'].includes(codeOf(error) ?? '')) return false;
    throw error;
  }
}

function startOf(path: string): Buffer {
  const file = openSync(path, 'r');
  try {
    const start = Buffer.alloc(mostLookedAt);
    return start.subarray(0, readSync(file, start));
  } finally {
    closeSync(file);
  }
}

/** Onto the disk, with the permissions of the file whose place it takes. */
function brought(path: string, mode: number | null): void {
  const file = openSync(path, 'r+');
  try {
    if (mode !== null) fchmodSync(file, mode & 0o777);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** The renaming is on the disk as well; not every system can bring a folder there, and the file is whole without it. */
function broughtFolder(folder: string): void {
  try {
    const opened = openSync(folder, 'r');
    try {
      fsyncSync(opened);
    } finally {
      closeSync(opened);
    }
  } catch {}
}

/** What cannot be removed now is taken away by a later run; the file is in its place. */
function removed(folder: string): void {
  try {
    rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
  } catch {}
}

const mostLinks = 40;

/** Where a link leads, be something there or not, so that it stays a link. */
function followed(path: string): string {
  let at = resolve(path);
  for (let links = 0; links <= mostLinks; links++) {
    if (!lstatSync(at, { throwIfNoEntry: false })?.isSymbolicLink()) return at;
    at = resolve(dirname(at), readlinkSync(at));
  }
  throw Object.assign(new Error(), { code: 'ELOOP' });
}
