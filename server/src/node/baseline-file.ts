import {
  type Baseline,
  baselineFrom,
  baselineName,
  baselineText,
  type KnownInFile,
  knowable,
  knownCount,
  stillThere,
  withoutKnown,
} from '../commands/baseline';
import type { Reporting } from '../commands/check-selected';
import { type Files, fileKind } from '../workspace/files';
import { settingsPlaces } from '../workspace/ignored';
import { canonicalUri, folderOf, isInside, resolvedUri } from '../workspace/uris';
import { pathOf } from './files';
import { textWritten } from './write';

/** The baseline of a check: where it lies, what of a report it knows, and how it is written. */

/** What is done with the baseline: findings are held against it, all that are there are written, or those that are gone are taken out. */
export type BaselineUse = 'hold' | 'write' | 'update';

export interface BaselineFile {
  /** Null: nothing is known by it yet. */
  readonly known: Baseline | null;
  readonly folder: string;
}

/** The baseline that counts for a file or folder, or what is wrong with it. */
export async function baselineFor(files: Files, uri: string): Promise<BaselineFile | string> {
  const place = fileKind(uri) === null ? `${uri.replace(/\/$/, '')}/.framewright.yaml` : uri;
  const settings = await settingsPlaces(files, place);
  for (const folder of settings.map(folderOf)) {
    const read = await files.read(folder + baselineName);
    if (read.kind === 'missing') continue;
    const told = pathOf(folder + baselineName) ?? baselineName;
    if (read.kind !== 'text') return `${told}: ${read.message}`;
    const known = baselineFrom(read.text);
    return known === null
      ? `${told}: the baseline is damaged, or of another version: mend or remove it (--write-baseline makes a new one)`
      : { known, folder };
  }
  return { known: null, folder: await settingsRoot(files, place, settings) };
}

/** The highest folder that has settings, else that of the repository, else the one that was asked about. */
async function settingsRoot(files: Files, uri: string, settings: readonly string[]): Promise<string> {
  const there: string[] = [];
  for (const each of settings) if ((await files.read(each)).kind === 'text') there.push(folderOf(each));
  return there.at(-1) ?? (await files.root(uri)) ?? folderOf(uri);
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
