import type { Settings } from '../model/read/settings';
import type { Files, Listing } from './files';
import { canonicalUri, folderOf, isInside, resolvedUri } from './uris';

/** The folders that hold a file, nearest first, as far as what is said in them reaches: to its repository's, else to the top. */
export function foldersAbove(uri: string, root: string | null): string[] {
  const folders: string[] = [];
  for (let folder = folderOf(uri); folders.length < deepest; folder = folderOf(folder)) {
    const isTop = folder.length < 'file:///'.length || folder === folders.at(-1);
    const isBeyond = folders.length > 0 && root !== null && !isInside(folder, root);
    if (isTop || isBeyond) break;
    folders.push(folder);
  }
  return folders;
}

const deepest = 40;

/** What an entry of `ignore` leads to, without a slash at its end; null where that is not below the settings file's folder. */
export function ignoredFolder(settingsUri: string, entry: string): string | null {
  const uri = resolvedUri(settingsUri, entry).replace(/\/$/, '');
  return isInside(uri, folderOf(settingsUri)) ? uri : null;
}

/** Files of a folder that are looked for, and whether some are not because settings ignore them. */
export interface LookedFor extends Listing {
  readonly leavesOut: boolean;
}

/**
 * Our files below a folder, less those that a settings file in a folder above them ignores: whatever folder the question is about, the
 * same files are ignored.
 * @param settingsAt the settings that stand at a URI; null where there are none
 */
export async function filesLookedFor(
  files: Pick<Files, 'list' | 'root'>,
  folderUri: string,
  settingsAt: (uri: string) => Promise<Settings | null>,
): Promise<LookedFor> {
  const folder = folderUri.endsWith('/') ? folderUri : `${folderUri}/`;
  const ignoredBy = async (settingsUri: string): Promise<string[]> =>
    ((await settingsAt(settingsUri))?.ignoredFolders ?? []).flatMap(
      (entry) => ignoredFolder(settingsUri, entry) ?? [],
    );
  const above: string[] = [];
  const inFolder = `${folder}.framewright.yaml`;
  for (const each of foldersAbove(inFolder, await files.root(inFolder)))
    above.push(...(await ignoredBy(`${each}.framewright.yaml`)));
  const isLeftOut = (uri: string, ignored: readonly string[]) => ignored.some((each) => isInside(uri, each));
  if (isLeftOut(inFolder, above)) return { uris: [], unread: [], leavesOut: true };
  // those need not even be listed
  const names = above
    .filter((each) => isInside(each, folder))
    .map((each) => canonicalUri(each).slice(canonicalUri(folder).length));
  const { uris: listed, unread } = await files.list(folderUri, names);
  const below: string[] = [];
  for (const uri of listed)
    if (uri.endsWith('/.framewright.yaml') && folderOf(uri) !== folder) below.push(...(await ignoredBy(uri)));
  const uris = below.length === 0 ? listed : listed.filter((uri) => !isLeftOut(uri, below));
  return {
    uris,
    unread: unread.filter(({ uri }) => !isLeftOut(uri, below)),
    leavesOut: names.length > 0 || uris.length < listed.length,
  };
}
