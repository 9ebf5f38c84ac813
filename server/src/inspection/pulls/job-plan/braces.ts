import type { Point } from '../../../model/chassis';
import type { Inspection } from '../../job/inspect';
import { isNear } from './neighbours';

/** A brace that stands in for a member that is out of the car. */
export interface Brace {
  readonly member: string;
  readonly mounts: readonly string[];
}

/**
 * Before a pull near the mounts of a member that is out: what held the metal there is gone (common practice). A hold that the job
 * records at all of those mounts counts as that brace.
 * @param loaded points of the parts that are pulled
 */
export function bracesFor({ job, chassis, stages }: Inspection, loaded: readonly Point[]): Brace[] {
  const newest = stages.at(-1)?.measure.conditions;
  return chassis.members.flatMap(({ name, mounts }): Brace[] => {
    const stated = (newest?.get(name) ?? job.conditions.get(name))?.text ?? chassis.conditions.get(name);
    if (stated?.toLowerCase() !== 'out') return [];
    const near = mounts.filter((id) => {
      const mount = chassis.points.get(id);
      return mount !== undefined && isNear([mount], loaded);
    });
    const held = heldPoints(job.timeline);
    return near.length === 0 || mounts.every((id) => held.has(id)) ? [] : [{ member: name, mounts }];
  });
}

/** Of the newest pull that records any. */
function heldPoints(timeline: Inspection['job']['timeline']): ReadonlySet<string> {
  const last = timeline.findLast((entry) => entry.kind === 'pull' && entry.holds.length > 0);
  return new Set(
    last?.kind === 'pull' ? last.holds.flatMap((hold) => (hold.kind === 'point' ? [hold.point.id] : [])) : [],
  );
}
