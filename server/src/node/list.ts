import { type Dirent, readdir, realpathSync, statSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { fileKind, neverLookedInto } from '../workspace/files';
import { codeOf, messageOf } from './error-code';

/** Our files below a folder of a disk, and what may hold some and was not looked into. All by path. */

interface Unread {
  readonly path: string;
  readonly message: string;
}

interface Found {
  readonly files: readonly string[];
  /** Links to files that have a name of ours. */
  readonly links: readonly string[];
  readonly unread: readonly Unread[];
}

interface Walk {
  /** The folder asked for, without links. */
  readonly top: string;
  /** What belongs together, without links; null where nothing says it. */
  readonly repository: string | null;
  readonly left: ReadonlySet<string>;
}

const nothing: Found = { files: [], links: [], unread: [] };

/**
 * @param left folders that are left out
 * @param repository folder of everything that belongs together with the files; null where nothing says it
 */
export async function listed(
  folder: string,
  left: ReadonlySet<string>,
  repository: string | null,
): Promise<Pick<Found, 'files' | 'unread'>> {
  const top = realPath(folder) ?? folder;
  const found = await inFolder(folder, { top, repository: repository && realPath(repository), left });
  const own = new Set(found.files);
  // a file that a link leads to as well is one file
  const others = found.links.filter((link) => {
    const real = realPath(link);
    return real !== null && !own.has(join(folder, relative(top, real)));
  });
  return { files: [...found.files, ...others], unread: found.unread };
}

/** A path without links; null where it leads nowhere, or where that cannot be seen. */
export function realPath(path: string): string | null {
  try {
    return realpathSync.native(path);
  } catch {
    return null;
  }
}

export const isBelow = (path: string, folder: string): boolean =>
  path === folder || path.startsWith(folder.endsWith(sep) ? folder : `${folder}${sep}`);

async function inFolder(folder: string, walk: Walk): Promise<Found> {
  let entries: Dirent[];
  try {
    entries = await entriesIn(folder);
  } catch (error) {
    return unreadFolder(folder, error);
  }
  const found = await Promise.all(
    entries.map((entry) => {
      const path = join(folder, entry.name);
      if (neverLookedInto.has(entry.name) || walk.left.has(path)) return nothing;
      if (entry.isDirectory()) return inFolder(path, walk);
      if (entry.isSymbolicLink()) return behindLink(path, entry.name, walk);
      if (!isOurs(entry.name)) return nothing;
      return entry.isFile() ? { ...nothing, files: [path] } : unread(path, 'it is not an ordinary file');
    }),
  );
  return {
    files: found.flatMap(({ files }) => files),
    links: found.flatMap(({ links }) => links),
    unread: found.flatMap((each) => each.unread),
  };
}

/** Not by `node:fs/promises`: loading it takes longer than most walks. */
const entriesIn = (folder: string): Promise<Dirent[]> =>
  new Promise((resolve, reject) => {
    readdir(folder, { withFileTypes: true }, (error, entries) => (error ? reject(error) : resolve(entries)));
  });

const isOurs = (name: string): boolean => fileKind(`/${name}`) !== null;

const unread = (path: string, message: string): Found => ({ ...nothing, unread: [{ path, message }] });

function unreadFolder(folder: string, error: unknown): Found {
  const code = codeOf(error);
  // it was removed meanwhile
  if (code === 'ENOENT') return nothing;
  const isForbidden = code === 'EACCES' || code === 'EPERM';
  return unread(
    folder,
    isForbidden ? 'this folder may not be read' : `it cannot be read (${code ?? messageOf(error)})`,
  );
}

/** Links to folders are not followed: paths in the files there count from another place. */
function behindLink(path: string, name: string, { top, repository }: Walk): Found {
  // an editor's mark that somebody has the file open
  if (name.startsWith('.#')) return nothing;
  const real = realPath(path);
  const status = real === null ? undefined : statSync(real, { throwIfNoEntry: false });
  if (real === null || status === undefined) return unread(path, 'this link leads nowhere');
  const isFolder = status.isDirectory();
  if (!isFolder && !isOurs(name)) return nothing;
  // looked into under its own name
  if (isFolder && isBelow(real, top)) return nothing;
  if (repository !== null && !isBelow(real, repository))
    return unread(path, 'this link leads out of the repository');
  if (isFolder) return unread(path, 'this link leads to a folder that is not looked into here');
  return status.isFile() ? { ...nothing, links: [path] } : unread(path, 'it is not an ordinary file');
}
