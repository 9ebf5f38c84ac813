import type { Chassis } from '../model/chassis';
import { bendOf } from './bend';
import type { Displacement, StageDoubt } from './displacements';
import { lazily } from './lazily';
import { partMotion } from './part-motion';
import type { PartInspection } from './stage';

/** Every part of which a point was read, by id. */
export function partInspections(
  chassis: Chassis,
  displacements: readonly Displacement[],
  doubt: StageDoubt,
  baseCentroid: readonly number[],
): PartInspection[] {
  const byPart = new Map<string, Displacement[]>();
  for (const displacement of displacements) {
    const { part } = displacement.point;
    if (part === null) continue;
    const group = byPart.get(part);
    if (group) group.push(displacement);
    else byPart.set(part, [displacement]);
  }
  return [...byPart.keys()].sort().map((id) => {
    const part = chassis.parts.get(id)!;
    const motion = partMotion(part, byPart.get(id)!, doubt);
    const bend = lazily(() =>
      bendOf(part, motion.stations, doubt, chassis.buildMm, baseCentroid[part.along]),
    );
    return {
      ...motion,
      get bend() {
        return bend();
      },
    };
  });
}
