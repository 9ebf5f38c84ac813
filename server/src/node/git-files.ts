import { spawnSync } from 'node:child_process';
import { join, relative, sep } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Files, fileKind, largestFile, neverLookedInto, type ReadResult } from '../workspace/files';
import { isInside } from '../workspace/uris';
import { pathOf } from './files';
import { blobAt, runGit } from './git';

/**
 * The files of a revision, under the URIs that they have in the work tree: paths in them lead where they led then.
 * @param root the top of the work tree; @param revision empty: what is staged
 */
export function gitFiles(root: string, revision: string): Files {
  /** Of all files of ours, once they were listed: asking for each by itself takes a process each. */
  let texts: ReadonlyMap<string, string> | null = null;
  const rootUri = pathToFileURL(`${root}/`).href;
  const read = async (uri: string): Promise<ReadResult> => {
    const path = pathIn(root, uri);
    const text = path === null ? null : (texts?.get(path) ?? (await blobAt(root, revision, path)));
    if (text === null) return { kind: 'missing', message: 'there is no such file' };
    return text.length > largestFile
      ? { kind: 'too-large', message: 'the file is larger than 8 MB' }
      : { kind: 'text', text };
  };
  return {
    read,
    list: async (folderUri, ignored) => {
      const all = await pathsIn(root, revision);
      texts ??= textsOf(root, revision, all);
      const uris = all
        .map((path) => uriIn(root, path))
        .filter((uri) => isInside(uri, folderUri) || uri.startsWith(folderUri))
        .filter((uri) => !ignored.some((name) => isInside(uri, `${folderUri.replace(/\/$/, '')}/${name}`)));
      return { uris: uris.sort(), unread: [] };
    },
    root: async (uri) => (isInside(uri, rootUri) ? rootUri : null),
    // a link is kept as a text of its own, and leads nowhere
    leadsOut: async () => false,
  };
}

export const uriIn = (root: string, path: string): string => pathToFileURL(join(root, path)).href;

/** A file's path from the top, with slashes; null where it is not below it. */
export function pathIn(root: string, uri: string): string | null {
  const path = pathOf(uri);
  const from = path === null ? '..' : relative(root, path);
  return from.startsWith('..') ? null : from.split(sep).join('/');
}

const isOurs = (path: string): boolean =>
  fileKind(`/${path}`) !== null && !path.split('/').some((name) => neverLookedInto.has(name));

async function pathsIn(root: string, revision: string): Promise<string[]> {
  const args =
    revision === ''
      ? ['ls-files', '-z', '--full-name']
      : ['ls-tree', '-r', '-z', '--name-only', '--full-tree', revision];
  const { code, stdout } = await runGit(root, args);
  return code === 0 ? stdout.toString().split('\0').filter(isOurs) : [];
}

/** So many are asked for at once. */
const portion = 400;

/** The byte-order mark stays: it counts as a character of the first line. */
const utf8 = new TextDecoder('utf-8', { ignoreBOM: true });

/** Of what cannot be had so nothing is said: it is asked for by itself. */
function textsOf(root: string, revision: string, paths: readonly string[]): ReadonlyMap<string, string> {
  const texts = new Map<string, string>();
  const named = paths.filter((path) => !path.includes('\n'));
  for (let at = 0; at < named.length; at += portion) {
    const some = named.slice(at, at + portion);
    const { stdout } = spawnSync('git', ['cat-file', '--batch'], {
      cwd: root,
      input: some.map((path) => `${revision}:${path}\n`).join(''),
      maxBuffer: portion * largestFile,
      windowsHide: true,
    });
    blobsIn(stdout ?? Buffer.alloc(0)).forEach((text, k) => {
      if (text !== null) texts.set(some[k], text);
    });
  }
  return texts;
}

/** What `cat-file --batch` prints: `ID blob SIZE`, a line end, the bytes, a line end; or a line that says there is none. */
function blobsIn(bytes: Buffer): (string | null)[] {
  const blobs: (string | null)[] = [];
  for (let at = 0; at < bytes.length; ) {
    const end = bytes.indexOf(10, at);
    if (end < 0) break;
    const size = / blob (\d+)$/.exec(bytes.toString('utf8', at, end))?.[1];
    at = end + 1;
    if (size === undefined) {
      blobs.push(null);
      continue;
    }
    blobs.push(utf8.decode(bytes.subarray(at, at + Number(size))));
    at += Number(size) + 1;
  }
  return blobs;
}
