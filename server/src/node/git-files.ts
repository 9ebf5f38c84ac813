import { join, relative, sep } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Files } from '../workspace/files';
import { isInside } from '../workspace/uris';
import { pathOf } from './files';
import { entriesOf, TreeFiles } from './tree-files';

/** Files that also tell by which links each is reached. */
export interface FilesWithLinks extends Files {
  /** The links on the way to a file and where it leads in the end, by canonical URI. */
  wayOf(uri: string): Promise<readonly string[]>;
  /** Links that have a name of ours. */
  links(): Promise<readonly string[]>;
}

/**
 * The files of a commit, under the URIs that they have in the work tree: paths in them lead where they led then.
 * @param root the top of the work tree
 */
export function gitFiles(root: string, revision: string): FilesWithLinks {
  const rootUri = pathToFileURL(`${root}/`).href;
  let loaded: Promise<TreeFiles> | null = null;
  const tree = (): Promise<TreeFiles> => {
    loaded ??= entriesOf(root, revision).then((entries) => new TreeFiles(root, entries, 'in this revision'));
    return loaded;
  };
  let isReadWhole = false;
  return {
    read: async (uri) => (await tree()).read(uri),
    list: async (folderUri, ignored) => {
      const files = await tree();
      if (!isReadWhole) files.readAll();
      isReadWhole = true;
      const isIgnored = (uri: string): boolean =>
        ignored.some((name) => isInside(uri, `${folderUri.replace(/\/$/, '')}/${name}`));
      return { uris: files.list(folderUri).filter((uri) => !isIgnored(uri)), unread: [] };
    },
    root: async (uri) => (isInside(uri, rootUri) ? rootUri : null),
    leadsOut: async (uri) => (await tree()).leadsOut(uri),
    wayOf: async (uri) => (await tree()).wayOf(uri),
    links: async () => (await tree()).links(),
  };
}

export const uriIn = (root: string, path: string): string => pathToFileURL(join(root, path)).href;

/** A file's path from the top, with slashes; null where it is not below it. */
export function pathIn(root: string, uri: string): string | null {
  const path = pathOf(uri);
  const from = path === null ? '..' : relative(root, path);
  return from === '..' || from.startsWith(`..${sep}`) ? null : from.split(sep).join('/');
}
