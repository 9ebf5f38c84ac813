import { dot, length, type Vec3 } from '../../geometry/vector';
import type { Part, Point } from '../../model/chassis';
import type { Chain, Hold, Pull } from '../../model/job';
import { idsNamed } from '../../model/names';
import { resolvedJob } from '../../model/resolve/resolved-job';
import { mapAxes } from '../alignment/points';
import type { Inspection } from '../job/inspect';
import { type KnownBend, knownBend } from '../job/known-bend';
import type { Newest } from '../job/newest';
import { partHistories } from '../job/part-history';
import type { PullRecord } from '../timeline/work';
import { unitVector } from './direction';

/** Whether the chains of a pull go the way that the points still have to go, and whether something holds behind the bend. */

export interface ChainAgainst {
  readonly chain: Chain;
  /** Unit vector, vehicle axes. */
  readonly direction: Vec3;
  /** The move that the hook's point still needed, vehicle axes, mm, by the last released reading before the pull. */
  readonly neededMm: Vec3;
  readonly reading: Newest;
  /** The needed move along the chain, mm: negative. */
  readonly alongMm: number;
  readonly uncertaintyMm: number;
}

/** What a chain does for its hook's point, by the last released reading before the pull. */
export interface ChainEffect {
  readonly chain: Chain;
  /** Unit vector, vehicle axes; null where none is written. */
  readonly direction: Vec3 | null;
  /** Null where the point was not read before. */
  readonly reading: Newest | null;
  /** The move that the point still needed along the chain, mm, with its standard uncertainty; null where the reading does not tell. */
  readonly along: { readonly neededMm: number; readonly uncertaintyMm: number } | null;
}

/** Each chain of a pull, in the order of the file. */
export const chainEffects = (inspection: Inspection, { pull, index }: PullRecord): ChainEffect[] =>
  pull.chains.map((chain) => {
    const direction = chain.direction && unitVector(chain.direction);
    const reading = lastReleased(inspection, chain.hook.id, index);
    return { chain, direction, reading, along: direction && reading && needAlong(direction, reading) };
  });

/** The chains that take their hook's point farther from where it belongs, beyond what the reading leaves in doubt (2u). */
export function chainsAgainst(inspection: Inspection): ChainAgainst[] {
  return inspection.work.pulls.flatMap((record) =>
    chainEffects(inspection, record).flatMap(({ chain, direction, reading, along }) => {
      if (direction === null || reading === null || along === null) return [];
      const { neededMm: alongMm, uncertaintyMm } = along;
      if (alongMm >= -2 * uncertaintyMm) return [];
      return [{ chain, direction, neededMm: needed(reading), reading, alongMm, uncertaintyMm }];
    }),
  );
}

function lastReleased({ stages, chassis }: Inspection, id: string, before: number): Newest | null {
  const point = chassis.points.get(id);
  if (point === undefined) return null;
  for (let i = stages.length - 1; i >= 0; i--) {
    const stage = stages[i];
    if (stage.index >= before || stage.underTension) continue;
    const judged = stage.points.find((each) => each.point === point);
    if (judged !== undefined) return { stage, judged };
  }
  return null;
}

const needed = ({ judged: { deviation } }: Newest): Vec3 => mapAxes((k) => -(deviation[k] ?? 0));

function needAlong(direction: Vec3, reading: Newest): ChainEffect['along'] {
  const { deviation, uncertainty } = reading.judged;
  if (reading.stage.provisional) return null;
  // an axis that could not be judged matters where the chain pulls along it
  const unknown = ([0, 1, 2] as const).some(
    (k) => direction[k] !== 0 && (deviation[k] === null || uncertainty[k] === null),
  );
  if (unknown) return null;
  return {
    neededMm: dot(direction, needed(reading)),
    uncertaintyMm: length(mapAxes((k) => direction[k] * (uncertainty[k] ?? 0))),
  };
}

interface PullWithoutHold {
  readonly pull: Pull;
  readonly part: Part;
  readonly known: KnownBend;
}

/** How far from the bend a hold still keeps the metal behind it where it is. Common practice in the trade; no source. */
export const holdReachMm = 600;

/** Pulls of a part whose bend start is known, with neither a hold nor an anchor on straight metal on its base side within reach. */
export function pullsWithoutHold(inspection: Inspection): PullWithoutHold[] {
  const histories = new Map(partHistories(inspection).map((history) => [history.part.id, history]));
  return inspection.work.pulls.flatMap(({ pull, index, partIds }) =>
    // a hold that cannot be read is said where it stands: whether it holds is not known
    (pull.holdsUnclear ? [] : partIds).flatMap((id) => {
      const history = histories.get(id);
      const known = history ? knownBend(inspection, history, index) : null;
      if (history === undefined || known === null || known.provisional) return [];
      const { bend } = known;
      const places = heldPlaces(inspection, pull, history.part);
      const holds = places.some(
        (at) => bend.away * (bend.straightToMm - at) >= 0 && bend.away * (bend.atMm - at) <= reachOf(known),
      );
      return holds ? [] : [{ pull, part: history.part, known }];
    }),
  );
}

/** Where the bend start is known poorly, straight metal itself begins farther off. */
const reachOf = ({ bend }: KnownBend): number =>
  Math.max(holdReachMm, 2 * Math.abs(bend.atMm - bend.straightToMm));

/** Where the car is held, as coordinates along a part, mm. What is held on the other side of the car does not hold this one. */
function heldPlaces({ job, chassis }: Inspection, pull: Pull, part: Part): number[] {
  const besides = (side: 'L' | 'R' | null) => side === null || part.side === null || side === part.side;
  const along = (points: readonly Point[]): number[] =>
    points.filter((point) => besides(point.side)).map((point) => point.reference[part.along]);
  const ofHold = (hold: Hold): number[] => {
    if (hold.kind === 'point')
      return along(idsNamed(hold.point.id, chassis.points).flatMap((id) => chassis.points.get(id) ?? []));
    const held = idsNamed(hold.part.id, chassis.parts).flatMap((id) => chassis.parts.get(id) ?? []);
    // a place along another part says where it is only where both run the same way
    return held.some((each) => each.along === part.along && besides(each.side)) ? [hold.atMm] : [];
  };
  return [...pull.holds.flatMap(ofHold), ...along(resolvedJob(job, chassis).anchors)];
}
