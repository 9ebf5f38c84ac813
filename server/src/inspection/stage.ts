import type { Measure, Reading, SpanReading } from '../model/job';
import type { Alignment } from './alignment';
import type { Bend } from './bend';
import type { Body } from './body';
import type { Displacement, StageDoubt } from './displacements';
import type { PartMotion } from './part-motion';
import type { JudgedPoint } from './points';
import type { JudgedSpan } from './spans';

export interface PartInspection extends PartMotion {
  readonly bend: Bend;
}

/** One measuring of the car, judged. */
export interface Stage {
  readonly measure: Measure;
  /** Position in the timeline. */
  readonly index: number;
  readonly name: string;
  /** A pull was not released yet: its readings are peaks. */
  readonly underTension: boolean;
  readonly provisional: boolean;
  /** Null in a tram-only job, and where a stage has no three-number readings. */
  readonly alignment: Alignment | null;
  readonly points: readonly JudgedPoint[];
  readonly unreachable: readonly Reading[];
  readonly spans: readonly JudgedSpan[];
  readonly parts: readonly PartInspection[];
  readonly body: Body | null;
  readonly displacements: readonly Displacement[];
  readonly doubt: StageDoubt | null;
  /** The adjusted distances of a tram-only job. */
  readonly network: TramNetwork | null;
}

/** The distances of a tram-only stage, adjusted together. */
export interface TramNetwork {
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  /** The distance that most likely was misread; null where they agree. */
  readonly suspect: { readonly reading: SpanReading; readonly residualMm: number } | null;
}
