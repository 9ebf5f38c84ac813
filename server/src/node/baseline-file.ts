import { existsSync } from 'node:fs';
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
import type { Target } from '../commands/collect';
import { once } from '../memory/once';
import { type Files, largestFile } from '../workspace/files';
import { settingsPlaces } from '../workspace/ignored';
import { canonicalUri, folderOf, isInside, resolvedUri } from '../workspace/uris';
import { type BaselineUse, baselineName, placeOf } from './baseline-place';
import { pathOf } from './files';
import { textWritten } from './write';

/** The baseline of a check: which one counts for a file, what of a report it knows, and how it is written. */

interface BaselineFile {
  /** Null: nothing is known by it yet. */
  readonly known: Baseline | null;
  readonly folder: string;
}

/** Baselines that count for files, and the one that is written. */
interface Baselines {
  /** Of the files and folders that were named, the first: it is the one that is written. */
  readonly first: BaselineFile;
  /** The nearest one above a file, whichever folder the question is about. */
  readonly of: (uri: string) => BaselineFile;
}

/**
 * The baselines of a check, or what is wrong with one.
 * @param asked the first file or folder that was named
 */
export async function baselinesFor(
  files: Files,
  asked: string,
  targets: readonly Target[],
): Promise<Baselines | string> {
  const there = new Map<string, Promise<BaselineFile | string | null>>();
  const at = (folder: string) => once(there, folder, () => baselineIn(files, folder));
  const nearest = async (uri: string): Promise<BaselineFile | string | null> => {
    for (const place of await settingsPlaces(files, uri)) {
      const found = await at(folderOf(place));
      if (found !== null) return found;
    }
    return null;
  };
  const place = placeOf(asked);
  const first = (await nearest(place)) ?? { known: null, folder: await settingsRoot(files, place) };
  if (typeof first === 'string') return first;
  const byFolder = new Map<string, BaselineFile>();
  for (const { uri } of targets) {
    if (byFolder.has(folderOf(uri))) continue;
    const found = (await nearest(uri)) ?? first;
    if (typeof found === 'string') return found;
    byFolder.set(folderOf(uri), found);
  }
  return { first, of: (uri) => byFolder.get(folderOf(uri)) ?? first };
}

/** The baseline that lies in a folder; null where there is none, or what is wrong with it. */
async function baselineIn(files: Files, folder: string): Promise<BaselineFile | string | null> {
  const read = await files.read(folder + baselineName);
  if (read.kind === 'missing') return null;
  const path = pathOf(folder + baselineName);
  const told = path ?? baselineName;
  if (read.kind !== 'text') {
    // in a folder that nobody may look into its files say so themselves, and nothing is known of them
    const isSeen = path === null || existsSync(path);
    return isSeen ? `${told}: ${read.message}` : null;
  }
  const known = baselineFrom(read.text);
  return known === null
    ? `${told}: the baseline is damaged, or of another version: mend or remove it (--write-baseline makes a new one)`
    : { known, folder };
}

/** The highest folder that has settings, else that of the repository, else the one that was asked about. */
async function settingsRoot(files: Files, uri: string): Promise<string> {
  const there: string[] = [];
  for (const each of await settingsPlaces(files, uri))
    if ((await files.read(each)).kind === 'text') there.push(folderOf(each));
  return there.at(-1) ?? (await files.root(uri)) ?? folderOf(uri);
}

/** The name of a file in a baseline; null where it does not lie below that. */
const nameIn = (folder: string, uri: string): string | null =>
  isInside(uri, folder) ? canonicalUri(uri).slice(canonicalUri(folder).length) : null;

/** Reports without what the baselines know; `met` gets what the first knows of each file from now on. */
export function heldAgainst(
  reporting: Reporting,
  { first, of }: Baselines,
  use: BaselineUse,
  met: Map<string, KnownInFile>,
): Reporting {
  return async function* (targets, options) {
    let i = 0;
    for await (const report of reporting(targets, options)) {
      const { uri } = targets[i++];
      const baseline = of(uri);
      const name = nameIn(baseline.folder, uri);
      const isWritten = use === 'write' && baseline === first;
      const before = name === null ? undefined : baseline.known?.get(name);
      const after = isWritten ? knowable(report) : stillThere(before ?? new Map(), report);
      if (name !== null && baseline === first) met.set(name, after);
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
  const text = baselineText(all);
  // a larger one could not be read again
  if (text.length > largestFile)
    return { said: `${path} was not written: it would be larger than 8 MB`, isWritten: false };
  const isOurs = (start: Buffer) => /"framewright"\s*:\s*"baseline\//.test(start.toString());
  const fault = textWritten(path, text, { force: null, isOurs });
  if (fault !== null) return { said: fault, isWritten: false };
  const [count, was] = [knownCount(all), known === null ? 0 : knownCount(known)];
  const gone = use === 'update' ? `, ${was - count} gone` : '';
  return { said: `${path}: ${count} known finding${count === 1 ? '' : 's'}${gone}`, isWritten: true };
}
