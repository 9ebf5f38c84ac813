import type { Target } from '../commands/collect';
import { type Files, fileKind } from '../workspace/files';
import { settingsPlaces } from '../workspace/ignored';
import { folderOf } from '../workspace/uris';

/** Where baselines of a check may lie. Most checks have none: what reads and writes one is loaded only for those that do. */

/** What is done with the baseline: findings are held against it, all that are there are written, or those that are gone are taken out. */
export type BaselineUse = 'hold' | 'write' | 'update';

export const baselineName = '.framewright-baseline.json';

/** Whether a baseline lies above what was asked for, be it one that cannot be read. */
export async function isAnyBaseline(
  files: Files,
  asked: string,
  targets: readonly Target[],
): Promise<boolean> {
  // one file of a folder stands for all
  const byFolder = new Map(targets.map(({ uri }) => [folderOf(uri), uri]));
  const folders = new Set<string>();
  for (const uri of [placeOf(asked), ...byFolder.values()])
    for (const place of await settingsPlaces(files, uri)) folders.add(folderOf(place));
  for (const folder of folders) if ((await files.read(folder + baselineName)).kind !== 'missing') return true;
  return false;
}

/** A file in the folder that was asked about, or the file that was. */
export const placeOf = (uri: string): string =>
  fileKind(uri) === null ? `${uri.replace(/\/$/, '')}/.framewright.yaml` : uri;
