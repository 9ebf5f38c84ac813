import { bodyMotion } from '../../geometry/body-motion';
import type { Vec3 } from '../../geometry/vector';
import type { Part } from '../../model/chassis';
import { degreesPerRadian } from '../../model/units';
import {
  byWeight,
  type Displacement,
  differenceCovariance,
  type Quantity,
  type StageDoubt,
} from '../alignment/displacements';
import { isKnownLength } from '../alignment/known-figures';
import { mapAxes } from '../alignment/points';
import { bowOf, crossAxes, type Station, stationsOf, type TwistGrowth, twistGrowthOf } from './stations';

/** An angle with its standard uncertainty, rad; null: it cannot be observed. */
export interface Angle {
  readonly angleRad: number;
  readonly uncertaintyRad: number;
}

/**
 * How a part as a whole has moved, and its shape station by station (server/README.md, "Motion of a part").
 * Source: Söderkvist & Wedin 1993.
 */
export interface PartMotion {
  readonly part: Part;
  readonly displacements: readonly Displacement[];
  /** Of the weighted centroid, vehicle axes, mm. */
  readonly shift: Vec3;
  readonly shiftUncertainty: Vec3;
  readonly yaw: Angle | null;
  readonly pitch: Angle | null;
  readonly twist: Angle | null;
  /** + longer. */
  readonly stretch: Quantity | null;
  readonly residualMm: number | null;
  readonly stations: readonly Station[];
  readonly bow: { readonly sideways: Quantity | null; readonly vertical: Quantity | null };
  readonly twistGrowth: TwistGrowth | null;
}

/** Past this an angle says nothing. */
const largestUsefulUncertaintyRad = 1 / degreesPerRadian;

/** The motion of a part of which some points were read; what is asked of it is computed when it is asked for. */
export class MovedPart implements PartMotion {
  private known: WholeMotion | null = null;
  private alongIt: readonly Station[] | null = null;

  /** @param displacements those of the part's points that were read, one or more */
  constructor(
    readonly part: Part,
    readonly displacements: readonly Displacement[],
    protected readonly doubt: StageDoubt,
  ) {}

  private get whole(): WholeMotion {
    this.known ??= wholeMotion(this.displacements, this.doubt);
    return this.known;
  }
  get shift(): Vec3 {
    return this.whole.shift;
  }
  get shiftUncertainty(): Vec3 {
    return this.whole.shiftUncertainty;
  }
  get twist(): Angle | null {
    return this.whole.twist;
  }
  get pitch(): Angle | null {
    return this.whole.pitch;
  }
  get yaw(): Angle | null {
    return this.whole.yaw;
  }
  get residualMm(): number | null {
    return this.whole.residualMm;
  }
  get stations(): readonly Station[] {
    this.alongIt ??= stationsOf(this.displacements, this.part.along, this.doubt);
    return this.alongIt;
  }
  get stretch(): Quantity | null {
    return stretchOf(this.stations, this.part, this.doubt);
  }
  get bow(): PartMotion['bow'] {
    const [sideways, vertical] = crossAxes[this.part.along];
    return {
      sideways: bowOf(this.stations, sideways, this.doubt),
      vertical: bowOf(this.stations, vertical, this.doubt),
    };
  }
  get twistGrowth(): TwistGrowth | null {
    return twistGrowthOf(this.stations, this.doubt);
  }
}

type WholeMotion = Pick<PartMotion, 'shift' | 'shiftUncertainty' | 'twist' | 'pitch' | 'yaw' | 'residualMm'>;

/** The part as one body, whatever its shape. */
function wholeMotion(displacements: readonly Displacement[], doubt: StageDoubt): WholeMotion {
  const weights = displacements.map((each) => 1 / Math.max(each.variance, 1e-4));
  const motion = bodyMotion(
    displacements.map((each) => each.point.reference),
    displacements.map((each) => each.measured),
    weights,
  );
  const mean = byWeight(displacements, weights);
  const shiftCovariance = doubt.between(mean, mean);
  const turn = doubt.turn(motion.rotationCovariance, displacements, weights);
  const angle = (value: number | null, axis: 0 | 1 | 2): Angle | null => {
    if (value === null) return null;
    const uncertaintyRad = Math.sqrt(Math.max(0, turn[axis][axis]));
    return uncertaintyRad <= largestUsefulUncertaintyRad ? { angleRad: value, uncertaintyRad } : null;
  };
  return {
    shift: motion.shift,
    shiftUncertainty: mapAxes((k) => Math.sqrt(shiftCovariance[k][k])),
    twist: angle(motion.twist, 0),
    pitch: angle(motion.pitch, 1),
    yaw: angle(motion.yaw, 2),
    residualMm: motion.residualRms,
  };
}

/** Mean shift along the part of the foremost station minus that of the rearmost. */
function stretchOf(stations: readonly Station[], { along }: Part, doubt: StageDoubt): Quantity | null {
  if (stations.length < 2) return null;
  const rear = stations[0];
  const front = stations[stations.length - 1];
  const covariance = differenceCovariance(doubt, front.mean, rear.mean);
  const mm = front.shift[along] - rear.shift[along];
  const uncertaintyMm = Math.sqrt(Math.max(0, covariance[along][along]));
  return isKnownLength(mm, uncertaintyMm) ? { mm, uncertaintyMm } : null;
}
