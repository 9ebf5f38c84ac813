import type { TimelineEntry } from '../model/job';
import { unusable } from './alignment';
import type { Inspection } from './inspect';
import type { Newest } from './newest';
import { oncePer } from './once';
import { type Dated, loadedPartIds } from './part-history';
import { pointsInScope } from './scope';
import type { Stage } from './stage';
import { partIds } from './work';

/** A point of the scope of which no reading tells how it stands after the work. */
export interface Unmeasured {
  readonly id: string;
  readonly why: 'never' | 'unreachable' | 'only-under-load' | 'outdated' | 'unusable';
  /** The stage that last read it, whatever that reading is worth. */
  readonly stage: Stage | null;
  /** The work that its last released reading is older than. */
  readonly work: Dated<TimelineEntry> | null;
}

/** Null where a released reading is newer than the last work on the point's part. */
export function unmeasuredWhy(
  inspection: Inspection,
  id: string,
  newest: Newest | undefined,
): Unmeasured | null {
  const work = lastWork(inspection, id);
  const { mentions, read } = stagesByPoint(inspection).get(id) ?? { mentions: [], read: [] };
  const stage = read.at(-1) ?? newest?.stage ?? mentions.at(-1) ?? null;
  // a stage measured in a mirror or out of scale is the newest word on its points, and it cannot be understood
  const misread = read.filter(({ underTension }) => !underTension).at(-1);
  if (misread !== undefined && unusable(misread.alignment))
    return { id, why: 'unusable', stage: misread, work };
  if (newest !== undefined)
    return work !== null && work.index > newest.stage.index ? { id, why: 'outdated', stage, work } : null;
  if (read.length > 0) return { id, why: 'only-under-load', stage, work };
  return { id, why: mentions.length > 0 ? 'unreachable' : 'never', stage, work };
}

/** By point id: the stages that have a row for it, and those of them whose row is a reading. */
const stagesByPoint = oncePer(({ stages }: Inspection) => {
  const found = new Map<string, { mentions: Stage[]; read: Stage[] }>();
  for (const stage of stages) {
    for (const { id, unreachable } of stage.measure.readings) {
      const ofPoint = found.get(id) ?? { mentions: [], read: [] };
      found.set(id, ofPoint);
      if (ofPoint.mentions.at(-1) !== stage) ofPoint.mentions.push(stage);
      if (!unreachable && ofPoint.read.at(-1) !== stage) ofPoint.read.push(stage);
    }
  }
  return found;
});

/** The newest entry that worked on a point's part, or hooked on the point itself. */
export function lastWork({ job, chassis }: Inspection, id: string): Dated<TimelineEntry> | null {
  const part = chassis.points.get(id)?.part ?? null;
  const worksOn = (entry: TimelineEntry): boolean => {
    const concerns = (ids: readonly string[]) => part !== null && ids.includes(part);
    switch (entry.kind) {
      case 'pull':
        return concerns(loadedPartIds(entry, chassis)) || entry.chains.some(({ hook }) => hook.id === id);
      case 'section':
      case 'replace':
      case 'heat':
        return concerns(partIds([entry.part], chassis));
      case 'relieve':
        // `all` means what is under tension: that is counted as its pull
        return entry.parts !== 'all' && concerns(partIds(entry.parts, chassis));
      default:
        return false;
    }
  };
  for (let index = job.timeline.length - 1; index >= 0; index--) {
    const entry = job.timeline[index];
    if (worksOn(entry)) return { entry, index };
  }
  return null;
}

/** Parts that the scope names without the sheet having a point on them; '' where nothing at all is to be judged. */
export function withoutPoints(inspection: Inspection): string[] {
  const { job, chassis } = inspection;
  const withPoints = new Set([...chassis.points.values()].flatMap(({ part }) => part ?? []));
  const empty = (job.scope ?? [])
    .filter((mention) => !partIds([mention], chassis).some((id) => withPoints.has(id)))
    .map(({ id }) => id);
  return empty.length === 0 && pointsInScope(inspection).length === 0 ? [''] : empty;
}
