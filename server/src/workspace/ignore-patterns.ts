import ignore, { type Ignore } from 'ignore';
import { canonicalUri, folderOf, isInside, resolvedUri } from './uris';

/** Lists of what is left out, each counted from the folder of the file that it stands in. */

/** Read as a pattern of `.gitignore`; any other entry is a path. */
export const isPattern = (entry: string): boolean => /[*?[]/.test(entry) || entry.startsWith('!');

/** What an entry that is no pattern leads to, without a slash at its end; null where that is not below the settings file's folder. */
export function ignoredPlace(settingsUri: string, entry: string): string | null {
  const uri = resolvedUri(settingsUri, entry).replace(/\/$/, '');
  return isInside(uri, folderOf(settingsUri)) ? uri : null;
}

/** Whether the `ignore` of a settings file names a file, or a folder that it lies in. */
export function ignoredBySettings(settingsUri: string, entries: readonly string[]): (uri: string) => boolean {
  const lines = entries.flatMap((entry) => {
    if (isPattern(entry)) return entry;
    const place = ignoredPlace(settingsUri, entry);
    return place === null ? [] : `/${escaped(pathBelow(folderOf(settingsUri), place))}`;
  });
  const patterns = ignoreOf(lines);
  const folder = folderOf(settingsUri);
  return (uri) => lines.length > 0 && isInside(uri, folder) && patterns.ignores(pathBelow(folder, uri));
}

/** What a `.gitignore` says of a file or folder below its own folder; null: nothing. */
export function saidByGitignore(text: string): (path: string) => boolean | null {
  const patterns = ignoreOf(text);
  return (path) => {
    const { ignored, unignored } = patterns.test(path);
    return ignored ? true : unignored ? false : null;
  };
}

/** A pattern means the same on every system: capitals count. */
const ignoreOf = (lines: string | readonly string[]): Ignore => ignore({ ignorecase: false }).add(lines);

export const pathBelow = (folder: string, uri: string): string =>
  canonicalUri(uri).slice(canonicalUri(folder).length);

const escaped = (path: string): string => path.replace(/[\\*?[\]!# ]/g, '\\$&');
