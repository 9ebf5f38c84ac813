import type { Point } from '../../model/chassis';
import type { Observe } from '../../model/job';
import type { Inspection } from '../job/inspect';
import { type PartHistory, renewedBetween } from '../job/part-history';
import type { Stage } from '../job/stage';

/** Why a point is no good place for a chain: corroded metal lets a clamp tear out; a reading that is told to be left alone is not pulled by. */
export type HookFlaw =
  | { readonly kind: 'corrosion'; readonly seen: Observe }
  | { readonly kind: 'ignored'; readonly reason: string };

/** So near along the part to where corrosion was seen no chain is hooked on. Chosen. */
const corrodedMm = 200;

/** Corrosion that is still in the metal counts, whatever words answer it; without a recorded place it may be anywhere on the part. */
export function hookFlaws(
  { job: { timeline, ignores } }: Inspection,
  history: PartHistory,
  stage: Stage,
): (point: Point) => HookFlaw | null {
  const corroded = history.seen.flatMap(({ entry, index }) =>
    entry.what === 'corrosion' && !renewedBetween(history, entry.atMm, index) ? [entry] : [],
  );
  // as an ignored line is counted: notes left out, from one
  const entry = timeline.slice(0, stage.index + 1).filter(({ kind }) => kind !== 'note').length;
  return ({ id, reference }) => {
    const seen = corroded.find(
      ({ atMm }) => atMm === null || Math.abs(reference[history.part.along] - atMm) <= corrodedMm,
    );
    if (seen !== undefined) return { kind: 'corrosion', seen };
    const ignore = ignores.find(({ rule, at }) => rule.startsWith('reading/') && at === `${entry} ${id}`);
    return ignore === undefined ? null : { kind: 'ignored', reason: ignore.reason };
  };
}
