import { parseText } from '../text/yaml/parse';
import { type Files, fileKind } from '../workspace/files';
import { jobHead } from '../workspace/job-head';
import { canonicalUri, folderOf, isInside } from '../workspace/uris';
import { chassisLink } from './chassis-link';

/**
 * The files that rest on others, at any depth: variants of a chassis file and jobs on one of them; all below a settings file. Sorted, those
 * asked about not among them unless they rest on one another.
 * @param folder in which they are looked for, with those that settings ignore
 * @param touched files that changed, were made, or are gone
 * @param placeOf one name for a file, by whatever links it is reached
 */
export async function dependentsOf(
  files: Pick<Files, 'list' | 'read'>,
  folder: string,
  touched: readonly string[],
  placeOf: (uri: string) => Promise<string> = async (uri) => canonicalUri(uri),
): Promise<string[]> {
  const moved = touched.filter((uri) => fileKind(uri) !== 'readings');
  // most commits hold jobs alone, and no other file need be looked at
  if (moved.length === 0) return [];
  const { uris } = await files.list(folder, []);
  const below = moved.filter((uri) => fileKind(uri) === 'settings').map(folderOf);
  const links = await linksOf(files, uris, placeOf);
  const resting = new Set(uris.filter((uri) => below.some((each) => isInside(uri, each))));
  const places = new Map<string, string>();
  for (const uri of [...moved, ...uris]) places.set(uri, await placeOf(uri));
  const reached = new Set([...moved, ...resting].map((uri) => places.get(uri)));
  for (let grown = true; grown; ) {
    grown = false;
    for (const [uri, to] of links) {
      if (resting.has(uri) || !reached.has(to)) continue;
      resting.add(uri);
      reached.add(places.get(uri));
      grown = true;
    }
  }
  return [...resting].sort();
}

/** By file, what its `chassis` or `extends` leads to, in one spelling, be it there or not. */
async function linksOf(
  files: Pick<Files, 'read'>,
  uris: readonly string[],
  placeOf: (uri: string) => Promise<string>,
): Promise<Map<string, string>> {
  const links = new Map<string, string>();
  for (const uri of uris) {
    const kind = fileKind(uri);
    if (kind === null || kind === 'settings') continue;
    const read = await files.read(uri);
    if (read.kind !== 'text') continue;
    const tree = (kind === 'readings' ? jobHead(read.text) : null) ?? parseText(read.text);
    const link = chassisLink(kind, uri, tree);
    if (link !== null) links.set(uri, await placeOf(link.uri));
  }
  return links;
}
