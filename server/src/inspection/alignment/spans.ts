import { distance } from '../../geometry/vector';
import type { Chassis, Limits, Span } from '../../model/chassis';
import type { Instrument, SpanReading } from '../../model/job';
import { spanUncertaintyMm } from './prepared';
import { conformity, type Verdict, verdictOf } from './verdict';

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
    const judgement = {
      deviationMm: measuredMm - referenceMm,
      uncertaintyMm: Math.sqrt(spanUncertaintyMm(instrument) ** 2 + referenceVariance),
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
        verdict: verdictOf([judgement]),
        listed: listed !== undefined,
      },
    ];
  });
}
