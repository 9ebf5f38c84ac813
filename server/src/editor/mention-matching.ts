import type { TextRange } from '../findings/rule/finding';
import { nameOf, sideOf } from '../model/names';
import type { NamedPlace } from '../model/resolve/job-mentions';
import { entryOf, offsetsOf, type Place, type TextTree } from '../text/tree';
import { canonicalUri } from '../workspace/uris';
import type { WorkspaceQuery } from '../workspace/workspace-query';
import { mentionsOf, type NamingFile } from './mentions';
import { contains } from './places';

/** The name of a point or part that stands at an offset; null where none does. */
export const namedAt = (file: NamingFile, offset: number): NamedPlace | null =>
  mentionsOf(file).find(({ place }) => contains(place, offset)) ?? null;

/** Whether two mentions in files of one body can mean the same: a name without its side stands for both. */
export const meansSame = (a: NamedPlace, b: NamedPlace): boolean =>
  sameName(a, b) && (sideOf(a.id) === null || sideOf(b.id) === null || a.id === b.id);

/** The same point or part, whatever the side. */
export const sameName = (a: NamedPlace, b: NamedPlace): boolean =>
  a.kind === b.kind && nameOf(a.id) === nameOf(b.id);

/** Whether a mention in a chassis file is the entry of that point or part itself, rather than a place that names it. */
export function isEntry({ kind, place }: NamedPlace, tree: TextTree): boolean {
  const map = entryOf(tree.root, `${kind}s`)?.value;
  return map?.kind === 'map' && map.entries.some(({ key }) => key.place === place);
}

/** Where the name stands without its side, and without the quotes around it; null where it is not written out. */
export function bareRange(text: string, place: Place, id: string): TextRange | null {
  const { start, end } = offsetsOf(place);
  const written = text.slice(start, end);
  const isQuoted = /^(["']).+\1$/.test(written) && written.slice(1, -1) === id;
  const quotes = written === id ? 0 : isQuoted ? 1 : null;
  return quotes === null ? null : { start: start + quotes, end: start + quotes + nameOf(id).length };
}

/**
 * The chassis file at which a name begins: of a file and its parents the outermost that names it. Every file that extends it means
 * the same by that name; a file that does not, does not. Null where no file of the chain names it.
 */
export async function originOf(
  query: WorkspaceQuery,
  chassisUri: string,
  named: NamedPlace,
): Promise<string | null> {
  const chain = await query.chainOf(chassisUri);
  for (const uri of [...chain].reverse()) {
    const file = await query.read(uri, 'chassis');
    if (file.kind === 'chassis' && mentionsOf(file).some((each) => sameName(each, named))) return uri;
  }
  return null;
}

export const includesUri = (uris: readonly string[], uri: string): boolean => {
  const wanted = canonicalUri(uri);
  return uris.some((each) => canonicalUri(each) === wanted);
};
