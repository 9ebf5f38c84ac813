import type { Chassis, Part } from '../../model/chassis';
import type { Join, TimelineEntry } from '../../model/job';
import { partIds, partsOfEntry } from '../../model/resolve/resolved-job';

/** The parts that an entry works on which is neither a pull nor the relief or release of one; none where it is no work. */
export const partsWorkedOn = (entry: TimelineEntry, chassis: Chassis): readonly string[] =>
  works.has(entry.kind) ? partsOfEntry(entry, chassis) : [];

const works: ReadonlySet<TimelineEntry['kind']> = new Set(['section', 'replace', 'join', 'heat']);

/** The same, and the parts that a join draws along: what was read of them before may not hold any more. */
export const partsMovedBy = (entry: TimelineEntry, chassis: Chassis): readonly string[] =>
  entry.kind === 'join'
    ? [...partsWorkedOn(entry, chassis), ...partsJoinedTo(entry, chassis)]
    : partsWorkedOn(entry, chassis);

/** Heat and clamps move what is welded, bonded or riveted on both sides of the seam, a bolt does not. */
const partsJoinedTo = (join: Join, chassis: Chassis): readonly string[] =>
  isOnlyBolted(
    join.how ?? partIds(join.parts, chassis).flatMap((id) => chassis.parts.get(id)?.attached ?? []),
  )
    ? []
    : partIds(join.to ?? [], chassis);

export const isOnlyBolted = (how: Part['attached']): boolean =>
  how.length > 0 && how.every((each) => each === 'bolted');
