import { type Files, fileKind } from '../workspace/files';
import { settingsPlaces } from '../workspace/ignored';
import { folderOf } from '../workspace/uris';
import { pathOf } from './files';

/** Where the baseline of a check lies. Most checks have none: what reads and writes one is loaded only for those that do. */

/** What is done with the baseline: findings are held against it, all that are there are written, or those that are gone are taken out. */
export type BaselineUse = 'hold' | 'write' | 'update';

export const baselineName = '.framewright-baseline.json';

export interface FoundBaseline {
  readonly folder: string;
  readonly text: string;
}

/** The baseline that counts for a file or folder, as it is written; null where there is none; a text says why it cannot be read. */
export async function foundBaseline(files: Files, uri: string): Promise<FoundBaseline | string | null> {
  for (const folder of (await settingsPlaces(files, placeOf(uri))).map(folderOf)) {
    const read = await files.read(folder + baselineName);
    if (read.kind === 'missing') continue;
    return read.kind === 'text' ? { folder, text: read.text } : `${toldPath(folder)}: ${read.message}`;
  }
  return null;
}

/** A file in the folder that was asked about, or the file that was. */
export const placeOf = (uri: string): string =>
  fileKind(uri) === null ? `${uri.replace(/\/$/, '')}/.framewright.yaml` : uri;

export const toldPath = (folder: string): string => pathOf(folder + baselineName) ?? baselineName;
