import type { Chassis } from '../../model/chassis';
import type { Job } from '../../model/job';
import { partIds, resolvedJob } from '../../model/resolve/resolved-job';
import type { Work } from '../timeline/work';
import { partsMovedBy } from '../timeline/worked-parts';

/** What a job is about and what anybody has in question anywhere in it: what is to be judged never testifies. */
export interface InQuestion {
  /** Parts of the scope; null: none is stated. */
  readonly scope: ReadonlySet<string> | null;
  /** Parts of the scope, and those that were loaded, cut, replaced, heated or seen to be damaged. */
  readonly parts: ReadonlySet<string>;
  /** Points under a hook. */
  readonly points: ReadonlySet<string>;
  /** All of it as one text, to compare. */
  readonly text: string;
}

export function inQuestion(job: Job, chassis: Chassis, work: Work): InQuestion {
  const { scope } = resolvedJob(job, chassis);
  const parts = new Set([...(scope ?? []), ...work.pulls.flatMap((pull) => pull.loadedPartIds)]);
  const points = new Set<string>();
  for (const entry of job.timeline) {
    if (entry.kind === 'pull') for (const { hook } of entry.chains) points.add(hook.id);
    for (const id of partsMovedBy(entry, chassis)) parts.add(id);
    if (entry.kind === 'observe' && entry.part !== null)
      for (const id of partIds([entry.part], chassis)) parts.add(id);
  }
  const sorted = (ids: Iterable<string>) => [...ids].sort();
  const text = JSON.stringify([scope && sorted(scope), sorted(parts), sorted(points)]);
  return { scope, parts, points, text };
}
