import type { Unread } from './files';
import { canonicalUri } from './uris';
import type { Workspace } from './workspace';
import { outermostOf } from './workspace-query';

/** So many files are looked after; a workspace with more is told so. */
const mostFiles = 10_000;

/**
 * Our files in an editor's folders, without what the settings there ignore, by one spelling of their URI. `left`: how many beyond the
 * most; `unread`: what was not looked into.
 * @param failed called for a folder whose listing failed
 */
export async function listedFiles(
  workspace: Workspace,
  folders: readonly string[],
  failed: (folder: string, error: unknown) => void,
): Promise<{ files: ReadonlyMap<string, string>; left: number; unread: readonly Unread[] }> {
  const found = new Map<string, string>();
  const unread: Unread[] = [];
  for (const folder of outermostOf(folders)) {
    try {
      const listing = await workspace.filesIn(folder, false);
      for (const uri of listing.uris) found.set(canonicalUri(uri), spelledIn(folder, uri));
      unread.push(...listing.unread);
    } catch (error) {
      unread.push({ uri: folder, message: 'it cannot be read' });
      failed(folder, error);
    }
  }
  const files = new Map([...found].slice(0, mostFiles));
  return { files, left: found.size - files.size, unread };
}

/** A file in a folder of the editor's, with the folder spelled as the editor does: it may write `c%3A` for `C:`. */
function spelledIn(folder: string, uri: string): string {
  const own = folder.replace(/\/$/, '').split('/');
  return [...own, ...uri.split('/').slice(own.length)].join('/');
}
