import { derived } from '../../memory/derived';
import type { Inspection } from '../job/inspect';
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

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
const mean = (values: readonly number[]): number => sum(values) / values.length;

/** Its standard uncertainty is the larger of what the readings give and what the pulls differ by (over √pulls). */
function pooledRatio(pulls: readonly ObservedPull[]): { ratio: number; uncertainty: number } {
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
function scatter(pulls: readonly ObservedPull[]): number {
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
    }
  | { readonly kind: 'none'; readonly why: 'not-seen' | 'no-set' | 'unlikely' };

/** A recovery of this share of the move or more is no pull that bent anything. */
const largestRatio = 0.9;

/**
 * The needed move plus the recovery seen so far: a range, and never beyond what was already seen.
 * Nothing is taken from pulls that left no set, nor where the pooled ratio is outside 0 to 0.9.
 * @param relieved whether stress will be relieved before the release: only pulls done likewise count
 */
export function aimFor(
  pulls: readonly ObservedPull[],
  partId: string,
  relieved: boolean,
  neededMm: number,
): Aim {
  const seen = pulls.filter((pull) => pull.partId === partId && pull.relieved === relieved);
  if (seen.length === 0) return { kind: 'none', why: 'not-seen' };
  const lasting = seen.filter(leftASet);
  if (lasting.length === 0) return { kind: 'none', why: 'no-set' };
  const { ratio } = pooledRatio(lasting);
  if (ratio < 0 || ratio > largestRatio) return { kind: 'none', why: 'unlikely' };
  const recoveries = lasting.map((pull) => Math.max(0, pull.recoveryMm));
  const recoveryMm = [Math.min(...recoveries), Math.max(...recoveries)] as const;
  return {
    kind: 'aim',
    fromMm: neededMm + recoveryMm[0],
    toMm: neededMm + recoveryMm[1],
    recoveryMm,
    relieved,
    pulls: lasting.length,
  };
}

/** Movement less recovery is more than its doubt (95 %). */
export function leftASet({ movementMm, recoveryMm, covariance: c }: ObservedPull): boolean {
  const uncertainty = Math.sqrt(Math.max(0, c[0][0] - 2 * c[0][1] + c[1][1]));
  return movementMm - recoveryMm > 2 * uncertainty;
}
