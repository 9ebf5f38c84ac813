import { outermostOf } from './survey';
import { canonicalUri } from './uris';
import type { Workspace } from './workspace';

/** So many files are looked after; a workspace with more is told so. */
const mostFiles = 10_000;

/**
 * Our files in an editor's folders, without what the settings there ignore, by one spelling of their URI. `left`: how many beyond the
 * most.
 * @param failed called for a folder that cannot be listed
 */
export async function listedFiles(
  workspace: Workspace,
  folders: readonly string[],
  failed: (folder: string, error: unknown) => void,
): Promise<{ files: ReadonlyMap<string, string>; left: number }> {
  const found = new Map<string, string>();
  for (const folder of outermostOf(folders)) {
    try {
      for (const uri of await workspace.filesIn(folder, false))
        found.set(canonicalUri(uri), spelledIn(folder, uri));
    } catch (error) {
      failed(folder, error);
    }
  }
  const files = new Map([...found].slice(0, mostFiles));
  return { files, left: found.size - files.size };
}

/** A file in a folder of the editor's, with the folder spelled as the editor does: it may write `c%3A` for `C:`. */
function spelledIn(folder: string, uri: string): string {
  const own = folder.replace(/\/$/, '').split('/');
  return [...own, ...uri.split('/').slice(own.length)].join('/');
}
