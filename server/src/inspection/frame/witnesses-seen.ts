import type { Vec3 } from '../../geometry/vector';
import { standsOff } from './doubt';
import type { ElsewhereScatter, WitnessGroup } from './frame-points';
import type { Belief } from './observations';
import type { StageFrame } from './stage-frame';
import { type GroupWeight, shareOf } from './witnesses';

/** What stands around a base and helps to align, as it is said. */
export interface WitnessesSeen {
  /** How far points elsewhere are taken to scatter, standard, mm: as stated, or raised until the witnesses agree with it. */
  readonly scatterMm: number;
  readonly scatter: ElsewhereScatter;
  readonly groups: readonly SeenGroup[];
}

export interface SeenGroup {
  readonly name: string;
  readonly ids: readonly string[];
  /** How much of its say is left to it, 0 to 1. */
  readonly weight: number;
  /** The same in its two parts: of each point, in the order of `ids`, and of the group. */
  readonly belief: Belief;
  /** Where its mean stands by everything else, mm, with the standard uncertainty. */
  readonly off: Vec3;
  readonly uncertainty: Vec3;
  /** Hardly believed, as it stands off by more than chance and its tolerance. */
  readonly isOff: boolean;
}

/** A group with less of its say than this does not help to align. */
const hardlyBelieved = 0.3;

/** With how far it is believed; null without witnesses. */
export function witnessesSeen({ groups, weighing }: StageFrame): WitnessesSeen | null {
  if (weighing === null) return null;
  const { own, shared } = weighing.scatter;
  return {
    scatterMm: Math.sqrt(own + shared),
    scatter: weighing.scatter,
    groups: groups.map((group, i) => seenGroup(group, weighing.groups[i])),
  };
}

/** By the control points alone. */
export const groupsByBase = ({ groups, weighing }: StageFrame): SeenGroup[] =>
  weighing === null ? [] : groups.map((group, i) => seenGroup(group, weighing.byBase[i]));

function seenGroup(group: WitnessGroup, seen: GroupWeight): SeenGroup {
  const { off, covariance } = seen.plain;
  const weight = shareOf(seen);
  return {
    name: group.name,
    ids: group.points.map(({ id }) => id),
    weight,
    belief: { points: seen.points, group: seen.group },
    off,
    uncertainty: [Math.sqrt(covariance[0][0]), Math.sqrt(covariance[1][1]), Math.sqrt(covariance[2][2])],
    isOff: weight < hardlyBelieved && standsOff(group, seen.plain),
  };
}
