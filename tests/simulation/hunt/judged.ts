import type { HuntJob } from './job';
import { chassisOf, inspected, jobOf } from './product';

/** What the program made of one job, against what is true. */
export interface Judged {
  readonly settled: boolean;
  /** A control point that was displaced counts as sound. */
  readonly wrongBase: boolean;
  readonly accused: boolean;
  readonly figures: number;
  readonly covered: number;
  /** |shown − true| > 3 u and > 1 mm. */
  readonly beyond3u: number;
  /** |shown − true| > 3 u + 1 mm. */
  readonly farBeyond: number;
  readonly falseOutside: number;
  readonly falseWithin: number;
  readonly points: number;
  readonly within: number;
  readonly outside: number;
  /** Largest |shown − true|, mm. */
  readonly worstMm: number;
  readonly faults: readonly string[];
}

/** Of |shown − true| past 3 u. */
const farMm = 1;
const wrongWithinMm = 3;

export function judgedHunt({ chassis, readings, truth, movedIds, traits }: HuntJob): Judged {
  const { stages } = inspected(jobOf(readings), chassisOf(chassis));
  const [{ alignment, provisional, points }] = stages;
  const settled = alignment !== null && alignment.base !== null && !provisional;
  const found = { figures: 0, covered: 0, beyond3u: 0, farBeyond: 0, falseOutside: 0, falseWithin: 0 };
  let [counted, within, outside, worstMm] = [0, 0, 0, 0];
  for (const { id, deviation, uncertainty, verdict } of settled ? points : []) {
    const metal = truth.get(id);
    if (metal === undefined) continue;
    const out = Math.max(...metal.map(Math.abs)) - traits.toleranceMm;
    counted++;
    within += +(verdict === 'within');
    outside += +(verdict === 'outside');
    found.falseOutside += +(verdict === 'outside' && out <= -traits.toleranceMm / 2);
    found.falseWithin += +(verdict === 'within' && out > wrongWithinMm);
    for (const k of [0, 1, 2] as const) {
      const [d, u] = [deviation[k], uncertainty[k]];
      if (d === null || u === null) continue;
      const error = Math.abs(d - metal[k]);
      worstMm = Math.max(worstMm, error);
      found.figures++;
      found.covered += +(error <= 1.96 * u);
      found.beyond3u += +(error > 3 * u && error > farMm);
      found.farBeyond += +(error > 3 * u + farMm);
    }
  }
  return {
    ...found,
    settled,
    worstMm,
    points: counted,
    within,
    outside,
    wrongBase: settled && alignment.baseIds.some((id) => movedIds.has(id)),
    accused: settled && alignment.movedIds.some((id) => !movedIds.has(id)),
    faults: alignment?.faults.map(({ kind }) => kind) ?? [],
  };
}

/** A figure or a verdict that someone could be hurt by: nothing beside it says that it may be wrong. */
export const isConfidentlyWrong = ({ farBeyond, falseOutside, falseWithin }: Judged): boolean =>
  farBeyond + falseOutside + falseWithin > 0;
