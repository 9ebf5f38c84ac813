import type { Vec3 } from '../../geometry/vector';
import { type FramePoint, weightFor } from './frame-points';

/**
 * The ways in which control points may have moved together that have a name: sets of them that were displaced as one or turned as a
 * body, and a floor that leans or turns more and more from some place on.
 */
export type StoryKind =
  | { readonly kind: 'shift' | 'body'; readonly what: MovedSet }
  /** `from` grows in this direction beyond a place along the length; `withFloor`: what is welded to the floor went along. */
  | {
      readonly kind: 'lean' | 'turn';
      readonly beyondMm: number;
      readonly to: 'front' | 'rear';
      readonly withFloor: boolean;
    };

type MovedSet =
  | { readonly kind: 'point' | 'name'; readonly name: string }
  | { readonly kind: 'left' | 'right' | 'both ends' | 'middle' | 'all' | 'subset' }
  | { readonly kind: 'ahead' | 'behind' | 'above' | 'below'; readonly ofMm: number };

/** A story with what it would do to points: three or fewer … six columns, each a displacement of each point. */
export interface Told {
  readonly story: StoryKind;
  /** Which control points it says of that they moved. */
  readonly members: readonly boolean[];
  /** Displacement of one point by each of its unknowns; null: it does not move. */
  readonly columns: (point: FramePoint, index: number) => readonly Vec3[] | null;
  /** How many unknowns. */
  readonly unknowns: number;
}

/** Stations nearer to each other are one. */
const stationMm = 30;
/** How far from the base a point still is welded to the floor: up or down, and ahead or behind. */
const [floorUpMm, floorAlongMm] = [100, 200];
/** Columns are of size 1 within a metre. */
const armMm = 1000;
const fewestOfBody = 3;

const unit: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** Stations along an axis: their ends, in ascending order. */
function stations(base: readonly FramePoint[], axis: 0 | 2): { from: number; to: number }[] {
  const places = base.map(({ place }) => place[axis]).sort((a, b) => a - b);
  const found: { from: number; to: number }[] = [];
  for (const at of places) {
    const last = found[found.length - 1];
    if (last !== undefined && at - last.to < stationMm) last.to = at;
    else found.push({ from: at, to: at });
  }
  return found;
}

/** Named sets, each once: what is listed first gives the name. */
export function namedSets(base: readonly FramePoint[]): { what: MovedSet; members: boolean[] }[] {
  const found = new Map<string, { what: MovedSet; members: boolean[] }>();
  const add = (what: MovedSet, isMember: (point: FramePoint) => boolean) => {
    const members = base.map(isMember);
    const key = members.map(Number).join('');
    if (members.includes(true) && !found.has(key)) found.set(key, { what, members });
  };
  for (const { id } of base) add({ kind: 'point', name: id }, (point) => point.id === id);
  for (const { name } of base) add({ kind: 'name', name }, (point) => point.name === name);
  add({ kind: 'left' }, ({ place }) => place[1] > 0);
  add({ kind: 'right' }, ({ place }) => place[1] < 0);
  const along = stations(base, 0);
  for (let i = 1; i < along.length; i++) {
    add({ kind: 'ahead', ofMm: along[i - 1].to }, ({ place }) => place[0] > along[i - 1].to);
    add({ kind: 'behind', ofMm: along[i].from }, ({ place }) => place[0] < along[i].from);
  }
  const up = stations(base, 2);
  for (let i = 1; i < up.length; i++) {
    add({ kind: 'above', ofMm: up[i - 1].to }, ({ place }) => place[2] > up[i - 1].to);
    add({ kind: 'below', ofMm: up[i].from }, ({ place }) => place[2] < up[i].from);
  }
  add({ kind: 'all' }, () => true);
  const atEnd = ({ place }: FramePoint) =>
    place[0] <= along[0].to || place[0] >= along[along.length - 1].from;
  add({ kind: 'both ends' }, atEnd);
  add({ kind: 'middle' }, (point) => !atEnd(point));
  return [...found.values()];
}

/** Named sets as a shift, and as a body from three points on. Without witnesses a set and the rest are one story, and three must stand. */
export function setStories(base: readonly FramePoint[], hasWitnesses: boolean): Told[] {
  const sets = namedSets(base);
  const chosen = hasWitnesses ? sets : onePerSplit(sets);
  const shifts = chosen.map(({ what, members }) => shiftOf(what, members));
  const bodies = chosen
    .filter(({ members }) => countOf(members) >= fewestOfBody)
    .map(({ what, members }) => bodyOf(base, what, members));
  return [...shifts, ...bodies];
}

const countOf = (members: readonly boolean[]): number => members.filter(Boolean).length;

/** Of a set and the rest the smaller one moved; of two halves the one that is listed first. */
function onePerSplit<T extends { members: boolean[] }>(sets: readonly T[]): T[] {
  const chosen = new Map<string, T>();
  const smallFirst = [...sets].sort((a, b) => countOf(a.members) - countOf(b.members));
  for (const set of smallFirst) {
    const standing = set.members.length - countOf(set.members);
    const rest = set.members.map((member) => Number(!member)).join('');
    if (standing >= fewestOfBody && !chosen.has(rest)) chosen.set(set.members.map(Number).join(''), set);
  }
  return [...chosen.values()];
}

export const shiftOf = (what: MovedSet, members: readonly boolean[]): Told => ({
  story: { kind: 'shift', what },
  members,
  columns: (_, index) => (members[index] ? unit : null),
  unknowns: 3,
});

function bodyOf(base: readonly FramePoint[], what: MovedSet, members: readonly boolean[]): Told {
  const [cx, cy, cz] = middleOf(base.filter((_, i) => members[i]));
  return {
    story: { kind: 'body', what },
    members,
    columns: ({ place }, index) => {
      if (!members[index]) return null;
      const [x, y, z] = [(place[0] - cx) / armMm, (place[1] - cy) / armMm, (place[2] - cz) / armMm];
      return [...unit, [0, -z, y], [z, 0, -x], [-y, x, 0]];
    },
    unknowns: 6,
  };
}

function middleOf(points: readonly FramePoint[]): Vec3 {
  const on = (k: 0 | 1 | 2) => points.reduce((total, { place }) => total + place[k], 0) / points.length;
  return [on(0), on(1), on(2)];
}

/**
 * Leans and turns that grow beyond the near end of each gap between stations. A turn is about the line along the length through the
 * base's weighted centroid. A lean over the whole length is a frame's own turn, which only witnesses can tell.
 */
export function growingStories(base: readonly FramePoint[], witnesses: readonly FramePoint[]): Told[] {
  const along = stations(base, 0);
  const middle = weightedMiddleOf(base);
  const onFloor = floorOf(base);
  const floor = new Set(witnesses.filter(onFloor));
  const found: Told[] = [];
  for (let gap = 0; gap < along.length - 1; gap++)
    for (const [to, beyondMm, sign, isWhole] of [
      ['front', along[gap].to, 1, gap === 0],
      ['rear', along[gap + 1].from, -1, gap === along.length - 2],
    ] as const) {
      const beyond = ({ place }: FramePoint) => Math.max(0, (sign * (place[0] - beyondMm)) / armMm);
      const hasFloor = [...floor].some((point) => beyond(point) > 0);
      for (const withFloor of hasFloor ? [false, true] : [false]) {
        const grown = (point: FramePoint, index: number) =>
          index < base.length || (withFloor && floor.has(point)) ? beyond(point) : 0;
        const members = base.map((point, i) => grown(point, i) > 0);
        const [lean, turn] = leanAndTurn({ beyondMm, to, withFloor }, members, grown, middle);
        found.push(...(isWhole && witnesses.length === 0 ? [turn] : [lean, turn]));
      }
    }
  return found;
}

function leanAndTurn(
  where: { beyondMm: number; to: 'front' | 'rear'; withFloor: boolean },
  members: readonly boolean[],
  grown: (point: FramePoint, index: number) => number,
  middle: Vec3,
): Told[] {
  const growing =
    (columns: (s: number, point: FramePoint) => Vec3[]): Told['columns'] =>
    (point, index) => {
      const s = grown(point, index);
      return s > 0 ? columns(s, point) : null;
    };
  return [
    {
      story: { kind: 'lean', ...where },
      members,
      columns: growing((s) => [
        [0, s, 0],
        [0, 0, s],
      ]),
      unknowns: 2,
    },
    {
      story: { kind: 'turn', ...where },
      members,
      columns: growing((s, { place }) => [
        [0, (-s * (place[2] - middle[2])) / armMm, (s * (place[1] - middle[1])) / armMm],
      ]),
      unknowns: 1,
    },
  ];
}

function weightedMiddleOf(points: readonly FramePoint[]): Vec3 {
  const weights = points.map(({ variance }) => weightFor(variance));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const on = (k: 0 | 1 | 2) => points.reduce((sum, { place }, i) => sum + weights[i] * place[k], 0) / total;
  return [on(0), on(1), on(2)];
}

/** Whether a witness stands where the floor is, to which it then is welded. */
function floorOf(base: readonly FramePoint[]): (point: FramePoint) => boolean {
  const on = (k: 0 | 2) => base.map(({ place }) => place[k]);
  const [lengths, heights] = [on(0), on(2)];
  const [rear, front] = [Math.min(...lengths) - floorAlongMm, Math.max(...lengths) + floorAlongMm];
  const [low, high] = [Math.min(...heights) - floorUpMm, Math.max(...heights) + floorUpMm];
  return ({ place: [x, , z] }) => x >= rear && x <= front && z >= low && z <= high;
}
