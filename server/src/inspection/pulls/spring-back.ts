import { derived } from '../../memory/derived';
import type { Inspection } from '../job/inspect';
import type { HookRecoveries, HookRecovery } from './hook-recovery';
import { type ObservedPull, observedPulls } from './observed-pulls';

/**
 * How far a part comes back when a pull is released (server/README.md, "Spring-back"). Recovery is elastic: once metal yields it
 * is nearer a constant amount than a share of the move, so both are shown. That hammering under load lowers it, and that only
 * a released part is measured, is common practice in the trade.
 */
export interface SpringBackRow {
  readonly part: string;
  readonly relieved: boolean;
  /** How many pulls it was seen on. */
  readonly pulls: number;
  /** Recovery as a share of the move, pooled over the pulls: Σ m r / Σ m². */
  readonly ratio: number | null;
  /** Standard. */
  readonly ratioUncertainty: number | null;
  /** Mean over the pulls, mm. */
  readonly recovery: number | null;
  /** Least and largest of the pulls, mm. */
  readonly recoveryRange: readonly [number, number] | null;
}

/** One row for each part that was pulled and released, relieved and unrelieved apart; by part id, relieved first. */
export const springBack = derived((inspection: Inspection): readonly SpringBackRow[] => {
  const observed = observedPulls(inspection);
  const keys = new Map<string, { part: string; relieved: boolean }>();
  if (!inspection.heldBack)
    for (const { partIds, partReleasedAt, relievedPartIds } of inspection.work.pulls)
      for (const part of partIds)
        if (inspection.chassis.parts.has(part) && partReleasedAt.has(part)) {
          const relieved = relievedPartIds.has(part);
          keys.set(`${part} ${relieved ? 0 : 1}`, { part, relieved });
        }
  return [...keys.keys()].sort().map((key) => {
    const { part, relieved } = keys.get(key)!;
    return rowOf(
      part,
      relieved,
      observed.filter((pull) => pull.partId === part && pull.relieved === relieved),
    );
  });
});

function rowOf(part: string, relieved: boolean, pulls: readonly ObservedPull[]): SpringBackRow {
  const row = { part, relieved, pulls: pulls.length };
  if (pulls.length === 0)
    return { ...row, ratio: null, ratioUncertainty: null, recovery: null, recoveryRange: null };
  const { ratio, uncertainty } = pooledRatio(pulls);
  const recoveries = pulls.map((pull) => pull.recoveryMm);
  return {
    ...row,
    ratio,
    ratioUncertainty: uncertainty,
    recovery: mean(recoveries),
    recoveryRange: [Math.min(...recoveries), Math.max(...recoveries)],
  };
}

/** Of a part on the whole, or at one place. */
type SeenPull = Pick<ObservedPull, 'movementMm' | 'recoveryMm' | 'covariance'>;

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
const mean = (values: readonly number[]): number => sum(values) / values.length;

/** Its standard uncertainty is the larger of what the readings give and what the pulls differ by (over √pulls). */
function pooledRatio(pulls: readonly SeenPull[]): { ratio: number; uncertainty: number } {
  const squares = sum(pulls.map(({ movementMm }) => movementMm ** 2));
  const ratio = sum(pulls.map(({ movementMm, recoveryMm }) => movementMm * recoveryMm)) / squares;
  const propagated = sum(
    pulls.map(({ movementMm: m, recoveryMm: r, covariance: c }) => {
      const byMovement = (r - 2 * ratio * m) / squares;
      const byRecovery = m / squares;
      return byMovement ** 2 * c[0][0] + 2 * byMovement * byRecovery * c[0][1] + byRecovery ** 2 * c[1][1];
    }),
  );
  return {
    ratio,
    uncertainty: Math.max(Math.sqrt(Math.max(0, propagated)), scatter(pulls) / Math.sqrt(pulls.length)),
  };
}

/** Sample standard deviation of the single ratios; 0 for one pull, which cannot show any. */
function scatter(pulls: readonly SeenPull[]): number {
  if (pulls.length < 2) return 0;
  const ratios = pulls.map(({ movementMm, recoveryMm }) => recoveryMm / movementMm);
  const middle = mean(ratios);
  return Math.sqrt(sum(ratios.map((ratio) => (ratio - middle) ** 2)) / (pulls.length - 1));
}

/** The move to reach under load so that the part comes back to where it belongs; or why none is said. */
export type Aim =
  | {
      readonly kind: 'aim';
      /** The move from where the point stands now, mm. */
      readonly fromMm: number;
      readonly toMm: number;
      /** Least and largest recovery that it was taken from, mm. */
      readonly recoveryMm: readonly [number, number];
      readonly relieved: boolean;
      readonly pulls: number;
      /** Points that it was read at, where that was not the hook itself. */
      readonly carriedFrom: readonly string[];
    }
  | { readonly kind: 'none'; readonly why: 'not-seen' | 'elsewhere' | 'no-set' | 'unlikely' };

/** A recovery of this share of the move or more is no pull that bent anything. */
const largestRatio = 0.9;

/**
 * The needed move plus the recovery seen so far at this place: a range, and never beyond what was already seen there.
 * Nothing is taken from pulls that left no set, nor where the pooled ratio is outside 0 to 0.9.
 * @param relieved whether stress will be relieved before the release: only pulls done likewise count
 */
export function aimFor({ seen, elsewhere }: HookRecoveries, relieved: boolean, neededMm: number): Aim {
  const alike = seen.filter((pull) => pull.relieved === relieved);
  if (alike.length === 0) return { kind: 'none', why: elsewhere > 0 ? 'elsewhere' : 'not-seen' };
  const lasting = alike.filter(leftASet);
  if (lasting.length === 0) return { kind: 'none', why: 'no-set' };
  const { ratio } = pooledRatio(lasting);
  if (ratio < 0 || ratio > largestRatio) return { kind: 'none', why: 'unlikely' };
  const recoveryMm = rangeOf(lasting);
  return {
    kind: 'aim',
    fromMm: neededMm + recoveryMm[0],
    toMm: neededMm + recoveryMm[1],
    recoveryMm,
    relieved,
    pulls: lasting.length,
    carriedFrom: [...new Set(lasting.flatMap((pull) => pull.carriedFrom ?? []))],
  };
}

function rangeOf(pulls: readonly HookRecovery[]): readonly [number, number] {
  const ends = pulls.flatMap(({ recoveryBetweenMm }) => recoveryBetweenMm.map((mm) => Math.max(0, mm)));
  return [Math.min(...ends), Math.max(...ends)];
}

/** Movement less recovery is more than its doubt (95 %). */
export function leftASet({ movementMm, recoveryMm, covariance: c }: SeenPull): boolean {
  const uncertainty = Math.sqrt(Math.max(0, c[0][0] - 2 * c[0][1] + c[1][1]));
  return movementMm - recoveryMm > 2 * uncertainty;
}
