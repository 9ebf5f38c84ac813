import type { Problem } from '../model/problem';
import { entryOf, type Node, type TextTree } from '../text/tree';
import { type Files, fileKind, neverLookedInto } from './files';
import { ignoredFolder } from './ignored';
import { hasFolder } from './uris';

/** What the `ignore` of a settings file lists to no effect: somebody believes that those files are left out. */
export async function ignoreProblems(
  files: Pick<Files, 'list' | 'read'>,
  settingsUri: string,
  tree: TextTree,
): Promise<Problem[]> {
  const list = entryOf(tree.root, 'ignore')?.value;
  if (list?.kind !== 'sequence' || !hasFolder(settingsUri)) return [];
  const problems: Problem[] = [];
  for (const item of list.items) {
    const message = await complaint(files, settingsUri, item);
    if (message !== null)
      problems.push({ rule: 'settings/ignore-matches-nothing', place: item.place, message });
  }
  return problems;
}

async function complaint(
  files: Pick<Files, 'list' | 'read'>,
  settingsUri: string,
  item: Node,
): Promise<string | null> {
  if (item.kind !== 'scalar' || typeof item.value !== 'string' || item.value === '') return null;
  const entry = item.value;
  const folder = ignoredFolder(settingsUri, entry);
  if (folder === null)
    return `${entry} leads to no folder below this file, and ignores nothing: put it in the settings file of that folder's repository or of a folder above it`;
  if (folder.split('/').some((name) => neverLookedInto.has(name)))
    return `${entry} ignores nothing: this folder is never searched anyway`;
  // a folder that cannot be listed is told of elsewhere
  const holdsFiles = await files.list(folder, []).then(
    ({ uris, unread }) => uris.length + unread.length > 0,
    () => true,
  );
  if (holdsFiles) return null;
  if (/[*?[\]{}]/.test(entry)) return `${entry} ignores nothing: name a folder, patterns are not read here`;
  if (fileKind(folder) !== null && (await files.read(folder)).kind === 'text')
    return `${entry} ignores nothing: it is a file, and folders are ignored`;
  return `${entry} ignores nothing: there is no chassis, readings or settings file below it`;
}
