import { idsNamed, sideOf } from '../../model/names';
import { parseText } from '../../text/yaml/parse';
import { jobHead } from '../../workspace/job-head';
import { canonicalUri } from '../../workspace/uris';
import type { JobAnalysis } from '../../workspace/workspace';
import type { WorkspaceQuery } from '../../workspace/workspace-query';
import { chassisLink } from '../chassis-link';

/** In how many jobs a point was read and judged, and in how many of them it was outside at some time. */
interface Tally {
  readonly read: number;
  readonly outside: number;
}

/** So many jobs are looked at for one answer. */
const mostJobs = 300;

/** By point id, over the jobs of a workspace whose body has the point from one chassis file. `left`: jobs beyond the most. */
export async function pointTally(
  query: WorkspaceQuery,
  chassisUri: string,
): Promise<{ tallies: ReadonlyMap<string, Tally>; left: number }> {
  const { workspace } = query;
  const own = canonicalUri(chassisUri);
  const jobs = (await query.uris([chassisUri], false)).filter((uri) => workspace.kindOf(uri) === 'readings');
  const tallies = new Map<string, Tally>();
  for (const uri of jobs.slice(0, mostJobs)) {
    const text = await query.readText(uri);
    const link = text === null ? null : chassisLink('readings', uri, jobHead(text) ?? parseText(text));
    // a job of another body is not judged for this
    if (link === null || !(await query.chainOf(link.uri)).some((each) => canonicalUri(each) === own))
      continue;
    const analysis = await workspace.analysis(uri);
    if (analysis.kind !== 'readings') continue;
    for (const [id, wasOutside] of judgedPoints(analysis, own)) {
      const { read, outside } = tallies.get(id) ?? { read: 0, outside: 0 };
      tallies.set(id, { read: read + 1, outside: outside + (wasOutside ? 1 : 0) });
    }
  }
  return { tallies, left: Math.max(0, jobs.length - mostJobs) };
}

/** Points that were judged in a stage whose base is settled and that was not under load: whether one found them outside. */
function judgedPoints({ inspection }: JobAnalysis, chassisUri: string): Map<string, boolean> {
  const judged = new Map<string, boolean>();
  for (const stage of inspection?.stages ?? []) {
    if (stage.provisional || stage.underTension) continue;
    for (const { id, point, verdict } of stage.points) {
      if (verdict === 'unjudged' || canonicalUri(point.origin.uri) !== chassisUri) continue;
      judged.set(id, judged.get(id) === true || verdict === 'outside');
    }
  }
  return judged;
}

/** `outside in 2 of 5 jobs`; both sides of a sided name. */
export function tallyText(name: string, { tallies, left }: Awaited<ReturnType<typeof pointTally>>): string {
  const told = idsNamed(name, tallies).map((id) => {
    const { read, outside } = tallies.get(id)!;
    const side = sideOf(id);
    return `${side === null ? '' : `${side} `}outside in ${outside} of ${read} job${read === 1 ? '' : 's'}`;
  });
  const text = told.length === 0 ? 'read in no job' : told.join(', ');
  return left === 0 ? text : `${text} (of the first ${mostJobs})`;
}
