import { type Files, fileKind, type Listing, type ReadResult } from './files';
import { canonicalUri } from './uris';

/** So many files are remembered; the ones asked for longest ago go first. */
const mostRemembered = 200;

/**
 * Files that many jobs have in common, chassis and settings files, are read once, whether they are there or not; jobs are read
 * anew. For one look at many files: what is remembered does not follow the files.
 */
export function sharedReads(files: Files, read: Files['read']): Files {
  const reads = new Map<string, Promise<ReadResult>>();
  const lists = new Map<string, Promise<Listing>>();
  return {
    read: (uri) =>
      fileKind(uri) === 'readings' ? read(uri) : remembered(reads, canonicalUri(uri), () => read(uri)),
    list: (folder, ignored) =>
      remembered(lists, [folder, ...ignored].join('\n'), () => files.list(folder, ignored)),
    root: (uri) => files.root(uri),
    leadsOut: (uri, folder) => files.leadsOut(uri, folder),
  };
}

function remembered<T>(known: Map<string, Promise<T>>, key: string, ask: () => Promise<T>): Promise<T> {
  const answer = known.get(key) ?? ask();
  known.delete(key);
  known.set(key, answer);
  if (known.size > mostRemembered) known.delete(known.keys().next().value as string);
  return answer;
}
