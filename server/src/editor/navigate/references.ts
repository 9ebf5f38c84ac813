import { nameOf } from '../../model/names';
import type { NamedPlace } from '../../model/resolve/job-mentions';
import { entryOf, offsetsOf, type TextTree } from '../../text/tree';
import type { Analysis } from '../../workspace/workspace';
import type { WorkspaceQuery } from '../../workspace/workspace-query';
import { meansSame, namedAt, originOf } from '../mention-matching';
import { mentionsOf, type NamingFile } from '../mentions';
import { filesOfBody } from './body-files';
import { endsAt, listedBetween, readBetween } from './distances';
import { type FileReferences, type Reference, referencesTo } from './reference-places';

/** Where one file names the point or part, or has the distance, that stands at an offset; that place included. */
export function highlightsAt(analysis: Analysis, offset: number): Reference[] {
  const named = namedAt(analysis, offset);
  if (named !== null) return referencesIn(analysis, named);
  const ends = endsAt(analysis, offset);
  if (analysis.kind === 'readings') return readBetween(analysis.job, ends);
  return analysis.kind === 'chassis' ? (listedBetween(analysis.chassis, ends).get(analysis.uri) ?? []) : [];
}

/**
 * Everywhere that what stands at an offset is named or read: a file at a time, so that no more than one is held. A name with its side
 * is also meant where the name stands without; another body's point of the same name is not.
 */
export async function* referencesAt(
  query: WorkspaceQuery,
  analysis: Analysis,
  offset: number,
): AsyncGenerator<FileReferences> {
  if (analysis.kind === 'settings') return;
  const named = namedAt(analysis, offset);
  if (named === null) {
    yield* distancesAt(query, analysis, offset);
    return;
  }
  const chassisUri = await query.chassisOf(analysis);
  const origin = chassisUri && (await originOf(query, chassisUri, named));
  if (!origin) {
    yield { uri: analysis.uri, text: analysis.text, references: referencesIn(analysis, named) };
    return;
  }
  for await (const file of filesOfBody(query, origin, nameOf(named.id))) {
    if (!('kind' in file)) continue;
    const references = referencesIn(file, named);
    if (references.length > 0) yield { uri: file.uri, text: file.text, references };
  }
}

/** Where a distance is listed, and where it was read. */
async function* distancesAt(
  query: WorkspaceQuery,
  analysis: Exclude<Analysis, { kind: 'settings' }>,
  offset: number,
): AsyncGenerator<FileReferences> {
  const ends = endsAt(analysis, offset);
  const chassisUri = ends.length > 0 ? await query.chassisOf(analysis) : null;
  if (chassisUri === null || analysis.chassis === null) return;
  const listed = listedBetween(analysis.chassis, ends);
  for (const [uri, references] of listed) {
    const text = await query.readText(uri);
    if (text !== null) yield { uri, text, references };
  }
  const [origin = chassisUri] = listed.keys();
  for await (const file of filesOfBody(query, origin, nameOf(ends[0].from))) {
    const references = 'kind' in file && file.kind === 'readings' ? readBetween(file.job, ends) : [];
    if ('kind' in file && references.length > 0) yield { uri: file.uri, text: file.text, references };
  }
}

function referencesIn(file: NamingFile & { readonly tree: TextTree }, named: NamedPlace): Reference[] {
  const keys = file.kind === 'chassis' ? definitionsOf(file.tree, named.kind) : new Set<number>();
  const places = mentionsOf(file)
    .filter((mention) => meansSame(mention, named))
    .map(({ place }) => place);
  return referencesTo(places, ({ start }) => keys.has(start));
}

function definitionsOf(tree: TextTree, kind: 'point' | 'part'): Set<number> {
  const map = entryOf(tree.root, `${kind}s`)?.value;
  return new Set(map?.kind === 'map' ? map.entries.map(({ key }) => offsetsOf(key.place).start) : []);
}
