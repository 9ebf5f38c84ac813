import { mkdtempSync, realpathSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';

/** Files written whole or not at all. For the door that has a command line. */

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
};

/**
 * Makes a file in a folder of its own beside where it belongs, and puts it in place by renaming: who reads it meets the old one or
 * the new one, and where something fails nothing is left behind.
 * @param make writes the file at the path that it is given, in a folder that is removed afterwards; answers null, or what went wrong
 * @returns null, or why there is no new file, in words for a person
 */
export function fileWritten(path: string, make: (temporary: string) => string | null): string | null {
  let folder: string | null = null;
  try {
    const target = followed(path);
    if (isFolder(target)) return refusal(path, 'EISDIR');
    // no leading dot: a browser in a sandbox of its own may not be let into hidden folders
    folder = mkdtempSync(join(dirname(target), `${basename(target).slice(0, 100)}.writing-`));
    const temporary = join(folder, basename(target));
    const fault = make(temporary);
    if (fault !== null) return fault;
    renameSync(temporary, target);
    return null;
  } catch (error) {
    return refusal(path, (error as NodeJS.ErrnoException).code ?? (error as Error).message);
  } finally {
    if (folder !== null) rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
  }
}

export const textWritten = (path: string, text: string): string | null =>
  fileWritten(path, (temporary) => {
    writeFileSync(temporary, text);
    return null;
  });

const refusal = (path: string, code: string): string => `${path} cannot be written: ${reasons[code] ?? code}`;

/** Where a link leads, so that it stays a link. */
function followed(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return path;
  }
}

const isFolder = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isDirectory() ?? false;
