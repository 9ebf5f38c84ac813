import { MostRecent } from '../memory/most-recent';
import { type Files, fileKind, type Listing, type ReadResult } from './files';
import { canonicalUri } from './uris';

/** So many files are remembered; the ones asked for longest ago go first. */
const mostRemembered = 200;

/**
 * Files that many jobs have in common, chassis and settings files, are read once, whether they are there or not; jobs are read
 * anew. For one look at many files: what is remembered does not follow the files.
 */
export function sharedReads(files: Files, read: Files['read']): Files {
  const reads = new MostRecent<string, Promise<ReadResult>>(mostRemembered);
  const lists = new MostRecent<string, Promise<Listing>>(mostRemembered);
  return {
    read: (uri) =>
      fileKind(uri) === 'readings' ? read(uri) : reads.remembered(canonicalUri(uri), () => read(uri)),
    list: (folder, ignored) =>
      lists.remembered([folder, ...ignored].join('\n'), () => files.list(folder, ignored)),
    root: (uri) => files.root(uri),
    leadsOut: (uri, folder) => files.leadsOut(uri, folder),
  };
}
