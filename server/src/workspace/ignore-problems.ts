import type { Problem } from '../model/problem';
import { entryOf, type Node, type TextTree } from '../text/tree';
import { type Files, neverLookedInto } from './files';
import { ignoredBySettings, ignoredPlace, isPattern } from './ignore-patterns';
import { folderOf, hasFolder } from './uris';

/** What the `ignore` of a settings file lists to no effect: somebody believes that those files are left out. */
export async function ignoreProblems(
  files: Pick<Files, 'list'>,
  settingsUri: string,
  tree: TextTree,
): Promise<Problem[]> {
  const list = entryOf(tree.root, 'ignore')?.value;
  if (list?.kind !== 'sequence' || !hasFolder(settingsUri)) return [];
  // a folder that cannot be listed is told of elsewhere
  const listing = await files.list(folderOf(settingsUri), []).catch(() => null);
  const there = listing && [...listing.uris, ...listing.unread.map(({ uri }) => uri)];
  return list.items.flatMap((item): Problem[] => {
    const message = complaint(settingsUri, item, there);
    return message === null ? [] : [{ rule: 'settings/ignore-matches-nothing', place: item.place, message }];
  });
}

/** @param there our files below the settings file's folder; null where that is not known */
function complaint(settingsUri: string, item: Node, there: readonly string[] | null): string | null {
  if (item.kind !== 'scalar' || typeof item.value !== 'string' || item.value === '') return null;
  const entry = item.value;
  const place = isPattern(entry) ? null : ignoredPlace(settingsUri, entry);
  if (!isPattern(entry)) {
    if (place === null)
      return `${entry} leads to no folder below this file, and ignores nothing: put it in the settings file of that folder's repository or of a folder above it`;
    if (place.split('/').some((name) => neverLookedInto.has(name)))
      return `${entry} ignores nothing: this folder is never searched anyway`;
  }
  const isIgnored = ignoredBySettings(settingsUri, [entry.replace(/^!/, '')]);
  if (there === null || there.some(isIgnored)) return null;
  return isPattern(entry)
    ? `${entry} ignores nothing: no chassis, readings or settings file below this folder matches it`
    : `${entry} ignores nothing: there is no chassis, readings or settings file below it`;
}
