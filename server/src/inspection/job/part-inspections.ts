import { derived } from '../../memory/derived';
import type { Chassis, Part } from '../../model/chassis';
import type { Displacement, StageDoubt } from '../alignment/displacements';
import { grouped } from '../alignment/grouped';
import { type Bend, bendOf } from '../shape/bend';
import { MovedPart } from '../shape/part-motion';
import type { PartInspection } from './stage';

/** Every part of which a point was read, by id. */
export function partInspections(
  chassis: Chassis,
  displacements: readonly Displacement[],
  doubt: StageDoubt,
  baseCentroid: readonly number[],
): PartInspection[] {
  const byPart = grouped(displacements, ({ point }) => point.part);
  const inspected: PartInspection[] = [];
  for (const part of partsInOrder(chassis)) {
    const own = byPart.get(part.id);
    if (own) inspected.push(new InspectedPart(part, own, doubt, chassis.buildMm, baseCentroid[part.along]));
  }
  return inspected;
}

const partsInOrder = derived(({ parts }: Chassis): readonly Part[] =>
  [...parts.keys()].sort().map((id) => parts.get(id)!),
);

class InspectedPart extends MovedPart implements PartInspection {
  private bent: Bend | null = null;

  constructor(
    part: Part,
    displacements: readonly Displacement[],
    doubt: StageDoubt,
    private readonly buildMm: number,
    private readonly baseAlongMm: number,
  ) {
    super(part, displacements, doubt);
  }

  get bend(): Bend {
    this.bent ??= bendOf(this.part, this.stations, this.doubt, this.buildMm, this.baseAlongMm);
    return this.bent;
  }
}
