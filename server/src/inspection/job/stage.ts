import type { Vec3 } from '../../geometry/vector';
import { derived } from '../../memory/derived';
import type { Measure, Reading, SpanReading } from '../../model/job';
import { type Carried, waitsForConfirmation } from '../alignment/carried';
import type { Displacement, StageDoubt } from '../alignment/displacements';
import type { JudgedPoint } from '../alignment/points';
import type { JudgedSpan } from '../alignment/spans';
import type { Alignment } from '../frame/alignment';
import type { Bend } from '../shape/bend';
import type { Body } from '../shape/body';
import type { PartMotion } from '../shape/part-motion';

export interface PartInspection extends PartMotion {
  readonly bend: Bend;
}

/** What the readings of one measure show, wherever it stands in the timeline. */
export interface JudgedMeasure {
  readonly provisional: boolean;
  /** Null in a tram-only job, and where a stage has no three-number readings. */
  readonly alignment: Alignment | null;
  readonly points: readonly JudgedPoint[];
  readonly spans: readonly JudgedSpan[];
  readonly parts: readonly PartInspection[];
  readonly body: Body | null;
  readonly displacements: readonly Displacement[];
  readonly doubt: StageDoubt | null;
  /** The adjusted distances of a tram-only job. */
  readonly network: TramNetwork | null;
}

/** One measuring of the car, judged, at its place in the timeline. */
export interface Stage extends JudgedMeasure {
  readonly measure: Measure;
  /** Position in the timeline. */
  readonly index: number;
  readonly name: string;
  /** A pull was not released yet: its readings are peaks. */
  readonly underTension: boolean;
  readonly unreachable: readonly Reading[];
  /** Points that were not read again: their earlier readings count. */
  readonly asBefore: readonly Reading[];
}

/** A measure with no row that could be read: of it nothing is said, not even that it is of distances. */
export const isEmpty = ({ alignment, network, spans }: Stage): boolean =>
  !network && alignment === null && spans.length === 0;

const unreachableIn = derived(({ readings }: Measure) => readings.filter(({ unreachable }) => unreachable));
const asBeforeIn = derived(({ readings }: Measure) => readings.filter(({ asBefore }) => asBefore));

const withCarried = (alignment: Alignment, carried: Carried, waits: boolean): Alignment => ({
  ...alignment,
  carried,
  faults: waits ? [...alignment.faults, { kind: 'carried', carried }] : alignment.faults,
  provisional: alignment.provisional || waits,
  provisionalSince: alignment.provisionalSince ?? (waits ? '0.2' : null),
});

/** A stage over what its measure shows: that may have been judged before an edit moved it. */
export class MeasuredStage implements Stage {
  readonly name: string;
  readonly unreachable: readonly Reading[];
  readonly asBefore: readonly Reading[];
  readonly provisional: boolean;
  readonly alignment: Alignment | null;

  /** @param carried what became of an alignment that was taken over */
  constructor(
    readonly measure: Measure,
    readonly index: number,
    readonly underTension: boolean,
    private readonly judged: JudgedMeasure,
    carried: Carried | null = null,
  ) {
    this.name = measure.name;
    this.unreachable = unreachableIn(measure);
    this.asBefore = asBeforeIn(measure);
    const waits = carried !== null && waitsForConfirmation(carried, underTension);
    this.provisional = judged.provisional || waits;
    this.alignment =
      carried === null || judged.alignment === null
        ? judged.alignment
        : withCarried(judged.alignment, carried, waits);
  }

  get points(): readonly JudgedPoint[] {
    return this.judged.points;
  }
  get spans(): readonly JudgedSpan[] {
    return this.judged.spans;
  }
  get parts(): readonly PartInspection[] {
    return this.judged.parts;
  }
  get body(): Body | null {
    return this.judged.body;
  }
  get displacements(): readonly Displacement[] {
    return this.judged.displacements;
  }
  get doubt(): StageDoubt | null {
    return this.judged.doubt;
  }
  get network(): TramNetwork | null {
    return this.judged.network;
  }
}

/** A control point of a tram-only stage that does not stand in its place. */
export interface MovedControl {
  readonly id: string;
  /** Vehicle axes, mm, with standard uncertainties; 0 along what no distance checks. */
  readonly shift: Vec3;
  readonly shiftUncertainty: Vec3;
  /** Control points that explain the distances as well, had one of them moved instead. */
  readonly orElse: readonly string[];
  /** It still counts as a control point: `base:` lists it, too few others are left, or another may have moved instead. */
  readonly kept: boolean;
}

/** The distances of a tram-only stage, adjusted together. */
export interface TramNetwork {
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  /** The distance that most likely was misread; null where they agree. */
  readonly suspect: {
    readonly reading: SpanReading;
    /** By how much it is longer than the other distances together have it. */
    readonly residualMm: number;
    /** The control point at one end that would explain it as well, had it moved. */
    readonly orMoved: string | null;
  } | null;
  /** Control points that the distances have elsewhere than the sheet. */
  readonly moved: readonly MovedControl[];
  /** A control point has moved and it cannot be told which, or too few are left without it: nothing here is to be relied on. */
  readonly provisional: boolean;
}
