import { existsSync, readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { type Files, largestFile, type ReadResult } from '../workspace/files';
import { canonicalUri } from '../workspace/uris';
import { codeOf, messageOf } from './error-code';
import { isBelow, listed, realPath } from './list';
import { wayTo } from './way';

/** Files of a disk, for the doors that have one. */
export function nodeFiles(): Files {
  const roots = new Map<string, string | null>();
  const rootOf = (folder: string): string | null => {
    if (!roots.has(folder)) roots.set(folder, repositoryOf(folder));
    return roots.get(folder) ?? null;
  };
  return {
    read,
    list: async (folderUri, ignored) => {
      const folder = pathOf(folderUri);
      if (folder === null) return { uris: [], unread: [] };
      const left = new Set(ignored.map((name) => join(folder, name)));
      const { files, unread } = await listed(folder, left, rootOf(folder));
      return {
        uris: files.map(uriOf).sort(),
        unread: unread
          .map(({ path, message }) => ({ uri: uriOf(path), message }))
          .sort((a, b) => (a.uri < b.uri ? -1 : 1)),
      };
    },
    root: async (uri) => {
      const path = pathOf(uri);
      const root = path === null ? null : rootOf(dirname(path));
      return root === null ? null : uriOf(`${root}/`);
    },
    leadsOut: async (uri, folderUri) => {
      const [path, folder] = [pathOf(uri), pathOf(folderUri)];
      const real = path === null ? null : (realPath(path) ?? realPath(dirname(path)));
      const within = folder === null ? null : realPath(folder);
      return real !== null && within !== null && !isBelow(real, within);
    },
  };
}

const uriOf = (path: string): string => pathToFileURL(path).href;

/** A file URI's path; null where no file of this machine can have it. */
export function pathOf(uri: string): string | null {
  try {
    const path = uri.startsWith('file:') ? fileURLToPath(uri) : null;
    // the system takes none with a NUL in it
    return path?.includes('\0') ? null : path;
  } catch {
    return null;
  }
}

/** The links on the way to a file and where it leads in the end, by canonical URI. */
export async function wayOnDisk(uri: string): Promise<string[]> {
  const path = pathOf(uri);
  return path === null ? [canonicalUri(uri)] : wayTo(path).map((each) => canonicalUri(uriOf(each)));
}

/** The byte-order mark stays: it counts as a character of the first line. */
const utf8 = new TextDecoder('utf-8', { ignoreBOM: true });

async function read(uri: string): Promise<ReadResult> {
  const path = pathOf(uri);
  if (path === null) return { kind: 'missing', message: 'it is not a file of this machine' };
  try {
    // synchronous on purpose: files of ours are small, and a trip through the thread pool costs more than the reading
    const status = statSync(path, { throwIfNoEntry: false });
    if (status === undefined) return { kind: 'missing', message: 'there is no such file' };
    if (status.isDirectory()) return { kind: 'folder', message: 'it is a folder, not a file' };
    if (!status.isFile()) return { kind: 'unreadable', message: 'it is not an ordinary file' };
    if (status.size > 4 * largestFile) return { kind: 'too-large', message: 'the file is larger than 8 MB' };
    return { kind: 'text', text: utf8.decode(readFileSync(path)) };
  } catch (error) {
    return failure(error);
  }
}

function failure(error: unknown): ReadResult {
  const code = codeOf(error);
  if (code === 'ENOENT' || code === 'ENOTDIR') return { kind: 'missing', message: 'there is no such file' };
  if (code === 'EACCES' || code === 'EPERM') return { kind: 'unreadable', message: 'it may not be read' };
  return { kind: 'unreadable', message: `it cannot be read (${code ?? messageOf(error)})` };
}

/** The nearest folder upwards that is a repository; null outside of one, and where a link leads into the folder from elsewhere. */
function repositoryOf(folder: string): string | null {
  for (let at = folder; ; at = dirname(at)) {
    if (existsSync(join(at, '.git'))) {
      const [real, realFolder] = [realPath(at), realPath(folder)];
      return real === null || realFolder === null || isBelow(realFolder, real) ? at : null;
    }
    if (dirname(at) === at) return null;
  }
}
