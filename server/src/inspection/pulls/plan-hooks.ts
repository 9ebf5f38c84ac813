import { dot, length, scaled, subtract, type Vec3 } from '../../geometry/vector';
import type { Axis, Part, Point } from '../../model/chassis';
import type { Angle, PartMotion } from '../shape/part-motion';
import { crossAxes, levelSeparationMm } from '../shape/stations';
import { roundedDirection, unitVector } from './direction';
import type { HookFlaw } from './hook-flaws';
import type { HookedWay, HookRecoveries } from './hook-recovery';
import { type FullMove, isFull, moveAlong, type NeededMove } from './plan-moves';
import { type Aim, aimFor } from './spring-back';

/** Where a chain hooks on and which way it pulls. */
export interface PlannedHook {
  readonly move: FullMove;
  /** Unit vector, vehicle axes. */
  readonly direction: Vec3;
  /** As a file writes it, two decimals. */
  readonly writtenDirection: Vec3;
  /** Its point is where it belongs: this chain only keeps it there while the other pulls. */
  readonly holdsBack: boolean;
  /** Null where the chain only holds back. */
  readonly aim: Aim | null;
  /** What stands against hooking on here, where no other point can be. */
  readonly flaw: HookFlaw | null;
}

export interface PlannedHooks {
  /** One, or two that turn the part back. */
  readonly hooks: readonly PlannedHook[];
  /** About the part's own way; null where none is significant. */
  readonly twist: Angle | null;
}

/**
 * The point with the largest needed move; where the part is twisted and a point across from it does not need to go the same way, that
 * one too, pulled the other way. That a twist is taken out by a couple is common practice in the trade.
 * Null where no point that is outside tolerance is known on all three axes.
 * A point with a flaw is hooked only where no other of them is without.
 * @param recoveriesAt what came back of a pull the way of a chain when earlier pulls were released
 */
export function plannedHooks(
  part: Part,
  motion: PartMotion,
  moves: readonly NeededMove[],
  recoveriesAt: (chain: HookedWay) => HookRecoveries,
  flawAt: (hook: Point) => HookFlaw | null,
): PlannedHooks | null {
  const known = moves.filter(isFull);
  const outside = known.filter((move) => move.verdict === 'outside');
  const main = farthest(outside.filter(({ point }) => flawAt(point) === null)) ?? farthest(outside);
  const direction = main && unitVector(main.moveMm);
  if (!main || !direction) return null;
  const twist = significantTwist(part, motion, main.id);
  const counter = twist === null ? null : counterHook(part, motion, known, main, direction);
  const pulling = (move: FullMove, way: Vec3): PlannedHook => ({
    move,
    direction: way,
    writtenDirection: roundedDirection(way),
    holdsBack: false,
    aim: aim(recoveriesAt({ hook: move.point, way }), length(move.moveMm)),
    flaw: flawAt(move.point),
  });
  const hooks = [pulling(main, direction)];
  if (counter !== null && counter.move.verdict === 'outside')
    hooks.push(pulling(counter.move, counter.direction));
  else if (counter !== null)
    hooks.push({
      ...counter,
      writtenDirection: roundedDirection(counter.direction),
      holdsBack: true,
      aim: null,
      flaw: flawAt(counter.move.point),
    });
  return { hooks, twist };
}

const farthest = (moves: readonly FullMove[]): FullMove | undefined =>
  [...moves].sort((a, b) => length(b.moveMm) - length(a.moveMm) || (a.id < b.id ? -1 : 1))[0];

/** What was seen on pulls with relief, as the plan asks for; only where there was none, on those without. */
function aim(recoveries: HookRecoveries, neededMm: number): Aim {
  const relieved = aimFor(recoveries, true, neededMm);
  return relieved.kind === 'none' && (relieved.why === 'not-seen' || relieved.why === 'elsewhere')
    ? aimFor(recoveries, false, neededMm)
    : relieved;
}

const ownTurn = (axis: Axis, { twist, pitch, yaw }: PartMotion): Angle | null => [twist, pitch, yaw][axis];

const isReal = (angle: Angle): boolean => Math.abs(angle.angleRad) > 2 * angle.uncertaintyRad;

/** Of the part about its own way, and at the station that is to be hooked. */
function significantTwist(part: Part, motion: PartMotion, id: string): Angle | null {
  const whole = ownTurn(part.along, motion);
  const here = stationOf(motion, id)?.twist ?? null;
  if (whole === null || here === null || !isReal(whole) || !isReal(here)) return null;
  return whole.angleRad * here.angleRad > 0 ? here : null;
}

const stationOf = (motion: PartMotion, id: string) =>
  motion.stations.find(({ members }) => members.some(({ point }) => point.id === id));

/** The point across from the main hook, farthest from it at the same station and side, unless it needs to go the same way. */
function counterHook(
  part: Part,
  motion: PartMotion,
  known: readonly FullMove[],
  main: FullMove,
  mainDirection: Vec3,
): { move: FullMove; direction: Vec3 } | null {
  const station = new Set(stationOf(motion, main.id)?.members.map(({ point }) => point.id));
  const [i, j] = crossAxes[part.along];
  const apart = ({ point }: FullMove) =>
    Math.hypot(point.reference[i] - main.point.reference[i], point.reference[j] - main.point.reference[j]);
  const across = known
    .filter(
      (move) =>
        station.has(move.id) && move.point.side === main.point.side && apart(move) > levelSeparationMm,
    )
    .sort((a, b) => apart(b) - apart(a) || (a.id < b.id ? -1 : 1))[0];
  if (across === undefined) return null;
  const turning = turningDirection(part.along, main, across, mainDirection);
  if (turning === null) return null;
  const back = scaled(turning, -1);
  if (across.verdict === 'outside') {
    const own = unitVector(across.moveMm);
    // it must go somewhere too: only the other way makes a couple
    return own !== null && dot(own, turning) < 0 && dot(own, mainDirection) < 0
      ? { move: across, direction: own }
      : null;
  }
  const needed = moveAlong(across, back);
  return needed.mm >= -2 * needed.uncertaintyMm ? { move: across, direction: back } : null;
}

/** What of a pull turns the part about its own way: square to that way and to the line between the two hooks. */
function turningDirection(along: Axis, main: FullMove, across: FullMove, direction: Vec3): Vec3 | null {
  const inPlane = (v: Vec3): Vec3 => [along === 0 ? 0 : v[0], along === 1 ? 0 : v[1], along === 2 ? 0 : v[2]];
  const arm = unitVector(inPlane(subtract(main.point.reference, across.point.reference)));
  if (arm === null) return null;
  const pull = inPlane(direction);
  const turning = subtract(pull, scaled(arm, dot(pull, arm)));
  // a pull mostly along the part or along the arm turns nothing
  return length(turning) < 0.5 ? null : unitVector(turning);
}
