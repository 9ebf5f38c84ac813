import type { Chassis, Part } from '../model/chassis';
import { type Bend, bendOf } from './bend';
import type { Displacement, StageDoubt } from './displacements';
import { grouped } from './grouped';
import { lazily } from './lazily';
import { MovedPart } from './part-motion';
import type { PartInspection } from './stage';
import type { Station } from './stations';

/** Every part of which a point was read, by id. */
export function partInspections(
  chassis: Chassis,
  displacements: readonly Displacement[],
  doubt: StageDoubt,
  baseCentroid: readonly number[],
): PartInspection[] {
  const byPart = grouped(displacements, ({ point }) => point.part);
  return [...byPart.keys()].sort().map((id) => {
    const part = chassis.parts.get(id)!;
    return new InspectedPart(part, byPart.get(id)!, doubt, (stations) =>
      bendOf(part, stations, doubt, chassis.buildMm, baseCentroid[part.along]),
    );
  });
}

class InspectedPart extends MovedPart implements PartInspection {
  private readonly bent: () => Bend;

  constructor(
    part: Part,
    displacements: readonly Displacement[],
    doubt: StageDoubt,
    bendAt: (stations: readonly Station[]) => Bend,
  ) {
    super(part, displacements, doubt);
    this.bent = lazily(() => bendAt(this.stations));
  }

  get bend(): Bend {
    return this.bent();
  }
}
