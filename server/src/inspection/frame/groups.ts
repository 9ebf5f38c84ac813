import type { FramePoint, WitnessGroup } from './frame-points';

/** From so far beyond the foremost or rearmost control point on, all that stands there is one group: it would lean together. */
const beyondEndMm = 200;

/** A possible witness and the part that it is of. */
export interface PossibleWitness {
  readonly point: FramePoint;
  /** The part's name, which both sides share; null: none. */
  readonly partName: string | null;
}

const fewestGroups = 2;

/**
 * Measured points that may share an error, by the name of their parts; what has no part, with its other side; and all that stands
 * beyond either end of the base. Empty where there are fewer than two, as one group would be believed whatever it says.
 */
export function witnessGroups(
  base: readonly Pick<FramePoint, 'place'>[],
  possible: readonly PossibleWitness[],
): WitnessGroup[] {
  const lengths = base.map(({ place }) => place[0]);
  const [rear, front] = [Math.min(...lengths) - beyondEndMm, Math.max(...lengths) + beyondEndMm];
  const groups = new Map<string, { name: string; points: FramePoint[] }>();
  for (const { point, partName } of possible) {
    const [x] = point.place;
    const [key, name] =
      x > front
        ? ['front end', 'front end']
        : x < rear
          ? ['rear end', 'rear end']
          : partName !== null
            ? [`part ${partName}`, partName]
            : [`point ${point.name}`, point.name];
    const known = groups.get(key);
    if (known === undefined) groups.set(key, { name, points: [point] });
    else known.points.push(point);
  }
  const found = [...groups.values()];
  return found.length < fewestGroups ? [] : found.sort((a, b) => (a.name < b.name ? -1 : 1));
}
