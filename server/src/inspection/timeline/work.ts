import type { Chassis } from '../../model/chassis';
import type { Job, Pull, TimelineEntry } from '../../model/job';
import { partsOfEntry } from '../../model/resolve/resolved-job';

/** What the order of the timeline tells: which parts were under tension, relieved, pulled at each moment. Nothing of it is restated in the file. */

export interface PullRecord {
  readonly pull: Pull;
  /** Position in the timeline. */
  readonly index: number;
  /** The part that it is about; where it names none, those that its hooks stand on. */
  readonly partIds: readonly string[];
  /** The same, and the parts of its hooks in any case: all that it loads. */
  readonly loadedPartIds: readonly string[];
  /** Position of the entry that released it; null while it is under tension. */
  readonly releasedAt: number | null;
  /** Stress was relieved on the part between pull and release. */
  readonly relieved: boolean;
  /** Those of its parts that were relieved before their release. */
  readonly relievedPartIds: ReadonlySet<string>;
  /** By part: position of the entry that released it; a part still under tension is not in it. */
  readonly partReleasedAt: ReadonlyMap<string, number>;
}

export interface Work {
  readonly pulls: readonly PullRecord[];
  /** The parts under tension when the entry at an index begins; at the timeline's length, those still under tension at its end. */
  tensionAt(index: number): ReadonlySet<string>;
}

interface OpenPull {
  readonly pull: Pull;
  readonly index: number;
  readonly partIds: readonly string[];
  readonly loadedPartIds: readonly string[];
  /** Parts not released yet. */
  readonly open: Set<string>;
  releasedAt: number | null;
  readonly relieved: Set<string>;
  readonly partReleasedAt: Map<string, number>;
}

/** A pull that names no part that is known still loads the body: it stands as ''. */
const partsUnderTension = (open: readonly OpenPull[]): ReadonlySet<string> =>
  open.length === 0
    ? noParts
    : new Set(open.flatMap((pull) => (pull.partIds.length > 0 ? [...pull.open] : [''])));

const noParts: ReadonlySet<string> = new Set();

function begunPull(pull: Pull, index: number, chassis: Chassis): OpenPull {
  const hooked = pull.chains.flatMap(({ hook }) => chassis.points.get(hook.id)?.part ?? []);
  const ids = pull.part ? partsOfEntry(pull, chassis) : [...new Set(hooked)];
  return {
    pull,
    index,
    partIds: ids,
    loadedPartIds: [...new Set([...ids, ...hooked])],
    open: new Set(ids),
    releasedAt: null,
    relieved: new Set(),
    partReleasedAt: new Map(),
  };
}

export function workOf(job: Job, chassis: Chassis): Work {
  const pulls: OpenPull[] = [];
  let open: OpenPull[] = [];
  const tension: ReadonlySet<string>[] = [];
  job.timeline.forEach((entry: TimelineEntry, index) => {
    tension.push(partsUnderTension(open));
    if (entry.kind === 'pull') {
      const pull = begunPull(entry, index, chassis);
      pulls.push(pull);
      open.push(pull);
    } else if (entry.kind === 'relieve' || entry.kind === 'release') {
      const named = entry.parts === 'all' ? null : new Set(partsOfEntry(entry, chassis));
      for (const pull of open) {
        const concerned = named === null ? [...pull.open] : [...pull.open].filter((id) => named.has(id));
        if (entry.kind === 'relieve') for (const id of concerned) pull.relieved.add(id);
        else {
          for (const id of concerned) {
            pull.open.delete(id);
            pull.partReleasedAt.set(id, index);
          }
          if (pull.open.size === 0 && (concerned.length > 0 || named === null)) pull.releasedAt = index;
        }
      }
      open = open.filter((pull) => pull.releasedAt === null);
    }
  });
  tension.push(partsUnderTension(open));
  return {
    pulls: pulls.map(
      ({ pull, index, partIds: ids, loadedPartIds, releasedAt, relieved, partReleasedAt }) => ({
        pull,
        index,
        partIds: ids,
        loadedPartIds,
        releasedAt,
        relieved: ids.length > 0 && ids.every((id) => relieved.has(id)),
        relievedPartIds: relieved,
        partReleasedAt,
      }),
    ),
    tensionAt: (index) => tension[index] ?? noParts,
  };
}
