import type { Chassis } from '../../model/chassis';
import type { BaseFit } from '../alignment/control-points';
import type { BendPlace } from '../shape/bend';
import { combinedBend, type DeclaredBend } from '../shape/combined-bend';
import type { Inspection } from './inspect';
import { type PartHistory, renewedBetween, replacedBetween } from './part-history';
import { isUnsettled } from './provisional';
import type { Stage } from './stage';

export interface KnownBend {
  readonly bend: BendPlace;
  /** That it was told from, the oldest first. */
  readonly stages: readonly Stage[];
  /** The base of that stage is not decided: the bend may stand elsewhere. */
  readonly provisional: boolean;
  /** What the stages say of its place differs by more than chance: `bend` is the most cautious of all. */
  readonly contradictory: boolean;
}

interface Seen {
  readonly stage: Stage;
  readonly bend: DeclaredBend;
}

/**
 * Where a part was known to be bent when the entry at an index began: by all released measures that show one bend since that metal was
 * renewed, taken together. A measure too short to tell, or one that shows the part pulled straight, does not make that metal straight
 * metal; a replacement, or a cut on the base's side of the bend, does away with it. Null where no bend is known, or the part is bent in
 * more than one place.
 */
export function knownBend(inspection: Inspection, history: PartHistory, index: number): KnownBend | null {
  let seen: Seen[] = [];
  let last = -1;
  for (const stage of inspection.stages) {
    if (stage.index >= index) break;
    if (stage.underTension) continue;
    seen = stillThere(inspection, history, seen, [last, stage.index]);
    last = stage.index;
    const bend = stage.parts.find(({ part }) => part.id === history.part.id)?.bend;
    if (bend?.kind === 'several') seen = [];
    else if (bend?.kind === 'bend') seen = [...seen, { stage, bend }];
  }
  seen = stillThere(inspection, history, seen, [last, index]);
  return seen.length === 0 ? null : toldFrom(inspection, history, seen);
}

/** Empty where the metal that was bent was renewed between two positions of the timeline. */
function stillThere(
  inspection: Inspection,
  history: PartHistory,
  seen: Seen[],
  [after, before]: readonly [number, number],
): Seen[] {
  if (seen.length === 0 || replacedBetween(history, after, before)) return [];
  if (!history.sections.some(({ index }) => index > after && index < before)) return seen;
  const { bend } = toldFrom(inspection, history, seen);
  return renewedBetween(history, bend.atMm, after, before) ? [] : seen;
}

/**
 * Settled stages are combined; where there are none, the most certain one counts, and so it does of distances alone. Bent out the other
 * way a part has another bend: then the one that is known best counts.
 */
function toldFrom({ chassis }: Inspection, { part }: PartHistory, all: readonly Seen[]): KnownBend {
  const settled = all.filter(({ stage }) => !isUnsettled(stage));
  const seen = settled.length > 0 ? settled : all;
  const best = seen.reduce((a, b) => (b.bend.uncertaintyMm < a.bend.uncertaintyMm ? b : a));
  const aligned = settled.flatMap(({ stage, bend }) =>
    stage.doubt === null || stage.alignment === null || bend.away !== best.bend.away
      ? []
      : [{ stage, bend, doubt: stage.doubt }],
  );
  if (aligned.length === 0)
    return { bend: best.bend, stages: [best.stage], provisional: settled.length === 0, contradictory: false };
  const { place, contradictory } = combinedBend(aligned, {
    along: part.along,
    buildMm: chassis.buildMm,
    sharedAlignment: (i, j) => sharedAlignment(aligned[i].stage, aligned[j].stage, chassis),
  });
  return { bend: place, stages: aligned.map(({ stage }) => stage), provisional: false, contradictory };
}

/**
 * The share of the alignment's variance that two stages have in common: all of one that was taken over; of two of their own, what the
 * scatter of the control points in both makes of it.
 */
function sharedAlignment(one: Stage, other: Stage, chassis: Chassis): number {
  const [a, b] = [one.alignment?.base ?? null, other.alignment?.base ?? null];
  if (a === null || b === null) return 0;
  return a === b ? 1 : sharedScatter(a, b, chassis);
}

function sharedScatter(a: BaseFit, b: BaseFit, { points, buildMm }: Chassis): number {
  const weightInB = new Map(b.members.map(({ id }, i) => [id, b.weights[i]]));
  const shares = a.members.map(({ id }, i) => {
    const weight = weightInB.get(id);
    const scatter = buildMm ** 2 + (points.get(id)?.uncertaintyMm ?? 0) ** 2;
    return weight === undefined ? 0 : Math.min(1, scatter * Math.sqrt(a.weights[i] * weight));
  });
  return shares.reduce((total, share) => total + share, 0) / Math.sqrt(a.members.length * b.members.length);
}
