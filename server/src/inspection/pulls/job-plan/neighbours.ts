import { distance } from '../../../geometry/vector';
import { derived } from '../../../memory/derived';
import type { Chassis, Point } from '../../../model/chassis';
import { partIds, partsOfEntry } from '../../../model/resolve/resolved-job';
import type { Inspection } from '../../job/inspect';

/** Which parts stand side by side, and which are joined. Chosen. */
const nearMm = 300;

export const pointsOfPart = derived((chassis: Chassis): ReadonlyMap<string, readonly Point[]> => {
  const found = new Map<string, Point[]>();
  for (const point of chassis.points.values())
    if (point.part !== null) found.set(point.part, [...(found.get(point.part) ?? []), point]);
  return found;
});

/** The two points, one of each set, that stand nearest to each other; null where a set is empty. */
export function nearestPair(
  a: readonly Point[],
  b: readonly Point[],
): { readonly from: Point; readonly to: Point; readonly mm: number } | null {
  let best: { from: Point; to: Point; mm: number } | null = null;
  for (const from of a)
    for (const to of b) {
      const mm = distance(from.reference, to.reference);
      if (best === null || mm < best.mm) best = { from, to, mm };
    }
  return best;
}

/** Whether any of some points stand so near to any of others that pulling there loads them too. */
export const isNear = (a: readonly Point[], b: readonly Point[]): boolean =>
  (nearestPair(a, b)?.mm ?? Number.POSITIVE_INFINITY) <= nearMm;

/** By part, the parts that it is welded or bonded to: as the chassis file states, and as the job's `join … to` does. */
export const joinedTo = derived(({ job, chassis }: Inspection): ReadonlyMap<string, ReadonlySet<string>> => {
  const found = new Map([...chassis.parts.values()].map((part) => [part.id, new Set(part.joined)]));
  for (const entry of job.timeline) {
    if (entry.kind !== 'join' || entry.to === null) continue;
    const others = partIds(entry.to, chassis);
    for (const id of partsOfEntry(entry, chassis))
      for (const other of others) {
        if (id === other || !chassis.parts.has(id) || !chassis.parts.has(other)) continue;
        found.get(id)?.add(other);
        found.get(other)?.add(id);
      }
  }
  return found;
});

/** Parts at which a gap was seen that nothing has been said of since: a seam that has opened. */
export const gapsSeen = derived(({ job, chassis }: Inspection): ReadonlySet<string> => {
  const open = job.timeline.flatMap((entry) =>
    entry.kind === 'observe' && entry.what === 'gap' && entry.answered === null
      ? partsOfEntry(entry, chassis)
      : [],
  );
  return new Set(open);
});
