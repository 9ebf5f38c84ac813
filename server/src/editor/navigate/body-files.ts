import { jobHead } from '../../workspace/job-head';
import type { Survey } from '../../workspace/survey';
import { canonicalUri } from '../../workspace/uris';
import type { Unjudged } from '../../workspace/workspace';
import { chassisLink } from '../chassis-link';
import { includesUri } from '../named';

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
  survey: Survey,
  origin: string,
  ...names: readonly string[]
): AsyncGenerator<Exclude<Unjudged, { kind: 'settings' }> | Unread> {
  const chassis = new Map<string, string>([[canonicalUri(origin), origin]]);
  const jobs: string[] = [];
  const { workspace } = survey;
  const isOfBody = async (uri: string): Promise<boolean> => {
    const chain = await survey.chainOf(uri);
    if (!includesUri(chain, origin)) return false;
    for (const each of chain) {
      if (!chassis.has(canonicalUri(each)) && includesUri(await survey.chainOf(each), origin))
        chassis.set(canonicalUri(each), each);
    }
    return true;
  };
  for (const uri of await survey.uris([origin])) {
    const kind = workspace.kindOf(uri);
    if (kind === 'chassis') {
      const read = await survey.text(uri);
      if (read.kind === 'text') await isOfBody(uri);
      else if (read.kind !== 'missing') yield { uri, message: read.message };
    }
    if (kind === 'readings') jobs.push(uri);
  }
  for (const uri of jobs) {
    const read = await survey.text(uri);
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
    const file = await survey.read(uri);
    if (file.kind !== 'readings') continue;
    const named = await survey.chassisOf(file);
    if (named !== null && (await isOfBody(named))) yield file;
  }
  for (const uri of chassis.values()) {
    const file = await survey.read(uri, 'chassis');
    if (file.kind === 'chassis') yield file;
  }
}
