import { length, type Vec3 } from '../../geometry/vector';
import { carriedPhrase } from '../../inspection/alignment/carried';
import { mapAxes } from '../../inspection/alignment/points';
import { isCarriedOnly } from '../../inspection/job/provisional';
import type { PullStep } from '../../inspection/pulls/job-plan/job-plan';
import type { PlannedPart } from '../../inspection/pulls/plan';
import type { NeededMove } from '../../inspection/pulls/plan-moves';
import type { Unit } from '../../model/units';
import { certaintyText, movesPhrase, shortList } from '../wording';

/** What of the metal still has to go where. */

/** The moves that a reading shows for certain: what is within its doubt would be a direction made of noise. */
export function moveText({ id, point, moveMm, uncertaintyMm }: NeededMove, unit: Unit): string {
  const real = mapAxes((k) => {
    const [mm, u] = [moveMm[k], uncertaintyMm[k]];
    return mm !== null && u !== null && Math.abs(mm) > 2 * u ? mm : 0;
  });
  const shown = ([0, 1, 2] as const).filter((k) => real[k] !== 0);
  if (shown.length === 0) return `${id} nothing for certain`;
  const largestU = Math.max(...shown.map((k) => uncertaintyMm[k] ?? 0));
  return `${id} ${movesPhrase(real, point.side, unit)} ${certaintyText(largestU, unit)}`;
}

/** Of every point of a part. */
export function everyMoveText({ moves, notRead, stage }: PlannedPart, unit: Unit): string {
  const size = (move: NeededMove) => length(mapAxes((k) => move.moveMm[k] ?? 0));
  const out = moves.filter((move) => move.verdict === 'outside').sort((a, b) => size(b) - size(a));
  const within = moves.filter((move) => move.verdict === 'within').length;
  const open = moves.filter((move) => move.verdict === 'undecided' || move.verdict === 'unjudged');
  const rest = [
    ...(open.length > 0 ? [`not decided ${shortList(open.map((move) => moveText(move, unit)))}`] : []),
    ...(within > 0 ? [`within tolerance ${within} of ${moves.length} points`] : []),
    ...(notRead.length > 0 ? [`not read ${shortList(notRead)}`] : []),
  ];
  const by = isCarriedOnly(stage) ? ` ${carriedPhrase(stage.alignment!.carried!)},` : '';
  return `${[...out.map((move) => moveText(move, unit)), ...rest].join('; ')} (by “${stage.name}”,${by} certain to 95 %)`;
}

/** Of the hooks what is past its limit, for what lies inside needs no move of its own; of the other points how many are out. */
export function movesText({ plans, hooks }: PullStep, unit: Unit): string {
  const out = plans.flatMap(({ moves }) => moves).filter(({ verdict }) => verdict === 'outside');
  const isHooked = ({ id }: NeededMove) => hooks.some(({ move }) => move.id === id);
  const texts = hooks
    .flatMap(({ move }) => (move.verdict === 'outside' ? [move] : []))
    .map((move) => {
      const past = movesPhrase(pastLimit(move), move.point.side, unit);
      return `${move.id} ${past} ${certaintyText(worstUncertainty(move), unit)}`;
    });
  const others = out.filter((move) => !isHooked(move)).length;
  const open = plans.flatMap(({ moves }) =>
    moves.filter(({ verdict }) => verdict === 'undecided').map(({ id }) => id),
  );
  const notRead = plans.flatMap((plan) => plan.notRead);
  const carried = plans.find(({ stage }) => isCarriedOnly(stage));
  return [
    ...texts,
    ...(others > 0 ? [`${others} other ${others === 1 ? 'point is' : 'points are'} out`] : []),
    ...(open.length > 0 ? [`not decided: ${shortList(open, 4)}`] : []),
    ...(notRead.length > 0 ? [`not read: ${shortList(notRead, 4)}`] : []),
    ...(carried === undefined ? [] : [carriedPhrase(carried.stage.alignment!.carried!)]),
  ].join('; ');
}

const pastLimit = ({ moveMm, point: { limits } }: NeededMove): Vec3 =>
  mapAxes((k) => {
    const mm = moveMm[k];
    return mm === null || (-mm >= limits[k][0] && -mm <= limits[k][1]) ? 0 : mm;
  });

const worstUncertainty = (move: NeededMove): number => {
  const past = pastLimit(move);
  return Math.max(...mapAxes((k) => (past[k] === 0 ? 0 : (move.uncertaintyMm[k] ?? 0))));
};
