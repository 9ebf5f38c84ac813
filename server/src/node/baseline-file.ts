import {
  type Baseline,
  baselineFrom,
  baselineText,
  type KnownInFile,
  knowable,
  knownCount,
  stillThere,
  withoutKnown,
} from '../commands/baseline';
import type { Reporting } from '../commands/check-selected';
import type { Files } from '../workspace/files';
import { settingsPlaces } from '../workspace/ignored';
import { canonicalUri, folderOf, isInside, resolvedUri } from '../workspace/uris';
import { type BaselineUse, baselineName, type FoundBaseline, placeOf, toldPath } from './baseline-place';
import { pathOf } from './files';
import { textWritten } from './write';

/** The baseline of a check: what of a report it knows, and how it is written. */

interface BaselineFile {
  /** Null: nothing is known by it yet. */
  readonly known: Baseline | null;
  readonly folder: string;
}

/**
 * The baseline that counts for a file or folder, or what is wrong with it.
 * @param found the one that is there
 */
export async function baselineFor(
  files: Files,
  uri: string,
  found: FoundBaseline | null,
): Promise<BaselineFile | string> {
  if (found === null) return { known: null, folder: await settingsRoot(files, uri) };
  const known = baselineFrom(found.text);
  return known === null
    ? `${toldPath(found.folder)}: the baseline is damaged, or of another version: mend or remove it (--write-baseline makes a new one)`
    : { known, folder: found.folder };
}

/** The highest folder that has settings, else that of the repository, else the one that was asked about. */
async function settingsRoot(files: Files, uri: string): Promise<string> {
  const there: string[] = [];
  const place = placeOf(uri);
  for (const each of await settingsPlaces(files, place))
    if ((await files.read(each)).kind === 'text') there.push(folderOf(each));
  return there.at(-1) ?? (await files.root(place)) ?? folderOf(place);
}

/** The name of a file in a baseline; null where it does not lie below that. */
const nameIn = (folder: string, uri: string): string | null =>
  isInside(uri, folder) ? canonicalUri(uri).slice(canonicalUri(folder).length) : null;

/** Reports without what the baseline knows; `met` gets what is known of each file from now on. */
export function heldAgainst(
  reporting: Reporting,
  { known, folder }: BaselineFile,
  use: BaselineUse,
  met: Map<string, KnownInFile>,
): Reporting {
  return async function* (targets, options) {
    let i = 0;
    for await (const report of reporting(targets, options)) {
      const name = nameIn(folder, targets[i++].uri);
      const before = name === null ? undefined : known?.get(name);
      const after = use === 'write' ? knowable(report) : stillThere(before ?? new Map(), report);
      if (name !== null) met.set(name, after);
      yield name === null ? report : withoutKnown(report, after);
    }
  };
}

/** Writes the baseline; answers what is to be said, and whether it was written. */
export async function baselineWritten(
  files: Files,
  { known, folder }: BaselineFile,
  use: 'write' | 'update',
  met: ReadonlyMap<string, KnownInFile>,
): Promise<{ readonly said: string; readonly isWritten: boolean }> {
  const all = new Map<string, KnownInFile>();
  for (const [name, each] of known ?? []) {
    const isGone = use === 'update' && (await files.read(resolvedUri(`${folder}x`, name))).kind === 'missing';
    if (!met.has(name) && !isGone) all.set(name, each);
  }
  for (const [name, each] of met) if (each.size > 0) all.set(name, each);
  if (use === 'update' && known === null) return { said: 'there is no baseline to update', isWritten: false };
  const path = pathOf(folder + baselineName);
  if (path === null) return { said: 'the baseline lies on no disk', isWritten: false };
  const isOurs = (start: Buffer) => start.includes('"framewright": "baseline/');
  const fault = textWritten(path, baselineText(all), { force: false, isOurs });
  if (fault !== null) return { said: fault, isWritten: false };
  const [count, was] = [knownCount(all), known === null ? 0 : knownCount(known)];
  const gone = use === 'update' ? `, ${was - count} gone` : '';
  return { said: `${path}: ${count} known finding${count === 1 ? '' : 's'}${gone}`, isWritten: true };
}
