import { distance } from '../../geometry/vector';
import type { Chassis, Limits, Span } from '../../model/chassis';
import type { Instrument, SpanReading } from '../../model/job';
import { contradictionMm, rangeOf } from './repeats';
import { allowedSpanSpreadMm, spanUncertaintyMm } from './uncertainty';
import { conformity, type Verdict, verdictOf, withContradiction } from './verdict';

/** One distance between two points, judged; mm. It needs no alignment. */
export interface JudgedSpan {
  readonly from: string;
  readonly to: string;
  readonly reading: SpanReading;
  readonly referenceMm: number;
  readonly measuredMm: number;
  readonly deviationMm: number;
  readonly uncertaintyMm: number;
  readonly limits: Limits;
  readonly conformity: number;
  readonly verdict: Verdict;
  /** Its repeats cannot all be right: it cannot be called within. */
  readonly contradictory: boolean;
  /** The chassis lists this distance; else it is computed from the two positions. */
  readonly listed: boolean;
}

/** The listed span between two points, in either order. */
export const listedSpan = (chassis: Chassis, from: string, to: string): Span | undefined =>
  chassis.spans.find(
    (span) => (span.from === from && span.to === to) || (span.from === to && span.to === from),
  );

export const meanDistance = (reading: SpanReading): number =>
  reading.distancesMm.reduce((total, each) => total + each, 0) / reading.distancesMm.length;

/** How far the repeats of a distance contradict each other, mm; 0 where they agree. */
const apartMm = (instrument: Instrument | null, { distancesMm }: SpanReading): number =>
  contradictionMm([rangeOf(distancesMm)], allowedSpanSpreadMm(instrument));

/** Standard uncertainty of a distance that was read, its reference left out, mm. Repeats do not lower it, but can contradict each other. */
export const distanceUncertaintyMm = (instrument: Instrument | null, reading: SpanReading): number =>
  Math.hypot(spanUncertaintyMm(instrument), apartMm(instrument, reading) / 2);

export function judgedSpans(
  chassis: Chassis,
  instrument: Instrument | null,
  readings: readonly SpanReading[],
): JudgedSpan[] {
  return readings.flatMap((reading) => {
    const from = chassis.points.get(reading.from);
    const to = chassis.points.get(reading.to);
    if (from === undefined || to === undefined || from === to || reading.distancesMm.length === 0) return [];
    const listed = listedSpan(chassis, reading.from, reading.to);
    const referenceMm = listed?.distanceMm ?? distance(from.reference, to.reference);
    const referenceVariance = listed
      ? listed.uncertaintyMm ** 2
      : from.uncertaintyMm ** 2 + to.uncertaintyMm ** 2;
    const measuredMm = meanDistance(reading);
    const contradictory = apartMm(instrument, reading) > 0;
    const judgement = {
      deviationMm: measuredMm - referenceMm,
      uncertaintyMm: Math.sqrt(distanceUncertaintyMm(instrument, reading) ** 2 + referenceVariance),
      limits: listed?.limits ?? ([-chassis.spanToleranceMm, chassis.spanToleranceMm] as const),
    };
    return [
      {
        from: reading.from,
        to: reading.to,
        reading,
        referenceMm,
        measuredMm,
        ...judgement,
        conformity: conformity(judgement) ?? 0,
        verdict: withContradiction(verdictOf([judgement]), contradictory),
        contradictory,
        listed: listed !== undefined,
      },
    ];
  });
}
