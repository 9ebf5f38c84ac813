import { parseText } from '../text/yaml/parse';
import { type Files, fileKind } from '../workspace/files';
import { jobHead } from '../workspace/job-head';
import { canonicalUri, folderOf, isInside } from '../workspace/uris';
import { chassisLink } from './chassis-link';

/** By canonical URI the links on the way to a file, and where it leads in the end. */
export type WayOf = (uri: string) => Promise<readonly string[]>;

const straight: WayOf = async (uri) => [canonicalUri(uri)];

/**
 * The files that rest on others, at any depth: variants of a chassis file and jobs on one of them; all below a settings file. Sorted, those
 * asked about not among them unless they rest on one another.
 * @param folder in which they are looked for, with those that settings ignore
 * @param touched what changed, was made, or is gone: files, links, and folders with all that is in them
 */
export async function dependentsOf(
  files: Pick<Files, 'list' | 'read'>,
  folder: string,
  touched: readonly string[],
  wayOf: WayOf = straight,
): Promise<string[]> {
  const moved = touched.filter((uri) => fileKind(uri) !== 'readings');
  // most commits hold jobs alone, and no other file need be looked at
  if (moved.length === 0) return [];
  const { uris } = await files.list(folder, []);
  const below = moved.filter((uri) => fileKind(uri) === 'settings').map(folderOf);
  const resting = new Set(uris.filter((uri) => below.some((each) => isInside(uri, each))));
  const reached = new Set(moved.map(canonicalUri));
  for (const uri of [...moved, ...resting])
    for (const each of (await wayOf(uri)).slice(-1)) reached.add(each);
  const ways = await waysBeneath(files, uris, wayOf);
  // what is reached by a link, or stands in a folder that is another now
  for (const [uri, { own }] of ways)
    if (
      own.some((each, k) => (k > 0 || each !== canonicalUri(uri)) && reached.has(each)) ||
      isWithin(own, reached)
    )
      resting.add(uri);
  for (const uri of resting) for (const each of ways.get(uri)?.own ?? []) reached.add(each);
  for (let grown = true; grown; ) {
    grown = false;
    for (const [uri, { own, beneath }] of ways) {
      if (resting.has(uri) || !(beneath.some((each) => reached.has(each)) || isWithin(beneath, reached)))
        continue;
      resting.add(uri);
      for (const each of own) reached.add(each);
      grown = true;
    }
  }
  const listed = new Set(uris);
  return [...resting].filter((uri) => listed.has(uri)).sort();
}

/** Whether a place lies in a folder that was reached. */
const isWithin = (places: readonly string[], reached: ReadonlySet<string>): boolean =>
  places.some((place) => {
    for (let at = place.lastIndexOf('/'); at > 0; at = place.lastIndexOf('/', at - 1))
      if (reached.has(place.slice(0, at))) return true;
    return false;
  });

interface Ways {
  readonly own: readonly string[];
  /** To the file that its `chassis` or `extends` names, be it there or not. */
  readonly beneath: readonly string[];
}

/** Of the files that were listed, and of those that they lead to. */
async function waysBeneath(
  files: Pick<Files, 'read'>,
  uris: readonly string[],
  wayOf: WayOf,
): Promise<ReadonlyMap<string, Ways>> {
  const ways = new Map<string, Ways>();
  const known = new Set(uris.map(canonicalUri));
  const due = [...uris];
  for (let uri = due.pop(); uri !== undefined; uri = due.pop()) {
    const kind = fileKind(uri);
    if (kind === null || kind === 'settings') continue;
    const read = await files.read(uri);
    const text = read.kind === 'text' ? read.text : '';
    const link = chassisLink(kind, uri, (kind === 'readings' ? jobHead(text) : null) ?? parseText(text));
    ways.set(uri, { own: await wayOf(uri), beneath: link === null ? [] : await wayOf(link.uri) });
    // it may lie where nobody looks for files
    if (link === null || known.has(canonicalUri(link.uri))) continue;
    known.add(canonicalUri(link.uri));
    due.push(link.uri);
  }
  return ways;
}
