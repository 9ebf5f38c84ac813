import { jobHead } from '../../workspace/job-head';
import { canonicalUri } from '../../workspace/uris';
import type { Unjudged } from '../../workspace/workspace';
import type { WorkspaceQuery } from '../../workspace/workspace-query';
import { chassisLink } from '../chassis-link';
import { includesUri } from '../mention-matching';

/** A file that could not be read, though it may be of the body. */
interface Unread {
  readonly uri: string;
  readonly message: string;
}

/**
 * The files of the bodies that have a chassis file in their chain: jobs, then those chassis files. Of jobs only those whose text
 * could hold one of `names`, as the others need not be read through.
 */
export async function* filesOfBody(
  query: WorkspaceQuery,
  origin: string,
  ...names: readonly string[]
): AsyncGenerator<Exclude<Unjudged, { kind: 'settings' }> | Unread> {
  const chassis = new Map<string, string>([[canonicalUri(origin), origin]]);
  const jobs: string[] = [];
  const { workspace } = query;
  const isOfBody = async (uri: string): Promise<boolean> => {
    const chain = await query.chainOf(uri);
    if (!includesUri(chain, origin)) return false;
    for (const each of chain) {
      if (!chassis.has(canonicalUri(each)) && includesUri(await query.chainOf(each), origin))
        chassis.set(canonicalUri(each), each);
    }
    return true;
  };
  for (const uri of await query.uris([origin])) {
    const kind = workspace.kindOf(uri);
    if (kind === 'chassis') {
      const read = await query.text(uri);
      if (read.kind === 'text') await isOfBody(uri);
      else if (read.kind !== 'missing') yield { uri, message: read.message };
    }
    if (kind === 'readings') jobs.push(uri);
  }
  for (const uri of jobs) {
    const read = await query.text(uri);
    if (read.kind === 'missing') continue;
    if (read.kind !== 'text') {
      yield { uri, message: read.message };
      continue;
    }
    // what is written with escapes is not found by its letters
    if (!names.some((name) => read.text.includes(name)) && !read.text.includes('\\')) continue;
    const head = jobHead(read.text);
    const early = head && chassisLink('readings', uri, head);
    if (head && (early === null || !(await isOfBody(early.uri)))) continue;
    const file = await query.read(uri);
    if (file.kind !== 'readings') continue;
    const named = await query.chassisOf(file);
    if (named !== null && (await isOfBody(named))) yield file;
  }
  for (const uri of chassis.values()) {
    const file = await query.read(uri, 'chassis');
    if (file.kind === 'chassis') yield file;
  }
}
