import { distance, subtract, type Vec3 } from '../../geometry/vector';
import { type AxisLimits, axes, type Chassis } from '../../model/chassis';
import type { Job, TimelineEntry } from '../../model/job';
import { partsOfEntry } from '../../model/resolve/resolved-job';
import type { Carried } from '../alignment/carried';
import { halfBand } from '../alignment/control-points';
import type { Displacement } from '../alignment/displacements';
import type { JudgedPoint } from '../alignment/points';
import { coverage95 } from '../alignment/verdict';
import type { Work } from '../timeline/work';
import { partsMovedBy } from '../timeline/worked-parts';
import type { Stage } from './stage';

/**
 * What a stage shows of an alignment that it took over: points away from the work, held against where that alignment has them
 * (server/README.md, "Alignment").
 */

/** Two points nearer than this could agree while the car turned about them, mm; chosen. */
const farApartMm = 500;
/** How many standard uncertainties still count as agreement. */
const agreement = 3;

/** What was done to the car between two entries of the timeline. */
interface WorkBetween {
  readonly kind: 'pull' | 'work' | null;
  readonly parts: ReadonlySet<string>;
  readonly hooks: ReadonlySet<string>;
  /** A pull of which no part is known may have moved any point. */
  readonly unknownPart: boolean;
}

const isPulling = ({ kind }: TimelineEntry): boolean => kind === 'pull' || kind === 'release';
const isWork = (entry: TimelineEntry): boolean =>
  isPulling(entry) || ['relieve', 'section', 'replace', 'join', 'heat'].includes(entry.kind);

function workBetween(job: Job, chassis: Chassis, work: Work, from: number, to: number): WorkBetween {
  const entries = job.timeline.slice(from + 1, to).filter(isWork);
  const kind = entries.length === 0 ? null : entries.some(isPulling) ? 'pull' : 'work';
  const loaded = work.pulls.filter(
    ({ index, releasedAt }) => index < to && (releasedAt === null || releasedAt > from),
  );
  const parts = new Set(loaded.flatMap(({ loadedPartIds }) => loadedPartIds));
  for (const entry of entries) {
    for (const id of partsMovedBy(entry, chassis)) parts.add(id);
    if (entry.kind === 'relieve') for (const id of partsOfEntry(entry, chassis)) parts.add(id);
  }
  return {
    kind,
    parts,
    hooks: new Set(loaded.flatMap(({ pull }) => pull.chains.map(({ hook }) => hook.id))),
    unknownPart: loaded.some(({ loadedPartIds }) => loadedPartIds.length === 0),
  };
}

interface Context {
  readonly job: Job;
  readonly chassis: Chassis;
  readonly work: Work;
  /** The stages before this one. */
  readonly earlier: readonly Stage[];
}

/**
 * What is known of an alignment that a stage took over; null where it has one of its own.
 * @param known the stage that it was last known to be right in
 */
export function carriedOver(
  { job, chassis, work, earlier }: Context,
  stage: Stage,
  known: Stage,
): Carried | null {
  const { alignment } = stage;
  if (alignment === null || alignment.inherited === null || alignment.base === null) return null;
  const between = workBetween(job, chassis, work, known.index, stage.index);
  const witnesses = witnessesOf(
    chassis.buildMm,
    earlier.filter(({ index }) => index <= known.index),
    stage,
    between,
  );
  const agreeing = witnesses.filter(({ agrees }) => agrees);
  const disagreeing = witnesses.filter(({ agrees, readBefore }) => !agrees && readBefore);
  const together = movedTogether(stage, witnesses);
  const confirmed = together.length === 0 && someFarApart(agreeing) && agreeing.length > disagreeing.length;
  // a car that was found to have moved stands no better in the next stage, until something shows that it does
  const last = earlier.findLast(({ alignment: own }) => own?.base === alignment.base)?.alignment?.carried;
  const stillMoved = confirmed || together.length > 0 ? [] : (last?.movedTogether ?? []);
  return {
    from: known.name,
    across: between.kind,
    agreeing: agreeing.map(({ id }) => id),
    disagreeing: disagreeing.map(({ id }) => id),
    confirmed,
    movedTogether: together.length > 0 ? together : stillMoved,
    otherwiseSettled: !stage.provisional,
  };
}

/** A point away from the work, held against where the carried alignment has it. */
interface Witness {
  readonly id: string;
  readonly place: Vec3;
  readonly off: Vec3;
  /** Standard uncertainty of `off`, on each axis. */
  readonly u: Vec3;
  readonly limits: AxisLimits;
  readonly agrees: boolean;
  /** Held against its own earlier reading by the same alignment, not against the sheet. */
  readonly readBefore: boolean;
  readonly isControl: boolean;
}

function witnessesOf(
  buildMm: number,
  earlier: readonly Stage[],
  stage: Stage,
  { parts, hooks, unknownPart }: WorkBetween,
): Witness[] {
  if (unknownPart) return [];
  const judgedById = new Map(stage.points.map((judged) => [judged.id, judged]));
  return stage.displacements.flatMap((now): Witness[] => {
    const { id, part, reference, limits, base } = now.point;
    const judged = judgedById.get(id);
    if (!judged || judged.contradictory || hooks.has(id) || (part !== null && parts.has(part))) return [];
    const before = earlierPlace(earlier, stage, id);
    const off = before === null ? now.shift : subtract(now.measured, before.measured);
    const u = before === null ? fromSheet(judged, buildMm) : fromBefore(now, before);
    // so doubtful a point would agree with anything
    if (axes.some((k) => coverage95 * u[k] > halfBand(limits[k]))) return [];
    const agrees = axes.every((k) => Math.abs(off[k]) <= agreement * u[k]);
    return [{ id, place: reference, off, u, limits, agrees, readBefore: before !== null, isControl: base }];
  });
}

/** A point's newest place before the work, by the same alignment: what is doubtful about that is in both and cancels. */
function earlierPlace(earlier: readonly Stage[], { alignment }: Stage, id: string): Displacement | null {
  for (let i = earlier.length - 1; i >= 0; i--) {
    const { alignment: own, underTension, displacements } = earlier[i];
    if (underTension || own?.base !== alignment?.base) continue;
    const found = displacements.find(({ point }) => point.id === id);
    if (found) return found;
  }
  return null;
}

const fromSheet = ({ uncertainty: [x, y, z] }: JudgedPoint, buildMm: number): Vec3 => [
  Math.hypot(x ?? Number.POSITIVE_INFINITY, buildMm),
  Math.hypot(y ?? Number.POSITIVE_INFINITY, buildMm),
  Math.hypot(z ?? Number.POSITIVE_INFINITY, buildMm),
];

function fromBefore(now: Displacement, before: Displacement): Vec3 {
  const reference = now.point.uncertaintyMm ** 2;
  const u = Math.sqrt(Math.max(0, now.variance - reference) + Math.max(0, before.variance - reference));
  return [u, u, u];
}

const someFarApart = (witnesses: readonly Witness[]): boolean =>
  witnesses.some((one, i) =>
    witnesses.slice(i + 1).some((other) => distance(one.place, other.place) >= farApartMm),
  );

/** Two control points or more that are off, by moves that leave the distances among them what they were. */
function movedTogether({ measure }: Stage, witnesses: readonly Witness[]): Carried['movedTogether'] {
  if (measure.setUp !== 'same') return [];
  const off = witnesses.filter(({ isControl, agrees }) => isControl && !agrees);
  const keepDistance = (a: Witness, b: Witness): boolean => {
    const before = distance(a.place, b.place);
    const now = distance(
      [a.place[0] + a.off[0], a.place[1] + a.off[1], a.place[2] + a.off[2]],
      [b.place[0] + b.off[0], b.place[1] + b.off[1], b.place[2] + b.off[2]],
    );
    return Math.abs(now - before) <= agreement * Math.hypot(Math.max(...a.u), Math.max(...b.u));
  };
  const together = off.filter((one) => off.some((other) => other !== one && keepDistance(one, other)));
  return together.map(({ id, off: offMm }) => ({ id, offMm }));
}
