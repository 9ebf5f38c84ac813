import { add, transformed, type Vec3, zero } from '../../../server/src/geometry/vector';
import { type Inspection, inspected } from '../../../server/src/inspection/job/inspect';
import type { Chassis, Point } from '../../../server/src/model/chassis';
import type { Job, Measure } from '../../../server/src/model/job';
import type { SeededRandom } from '../../published/seeded-random';
import { controlPoints, nowhere } from '../body';
import { chassis as body, otherPoints } from '../frame/body';
import { cellAt } from '../grid';
import { simulatedJob } from '../job';
import { anyRotation, normalVec3 } from '../random';

/** Cars of one body with build scatter, and jobs that read them. */

export interface BuiltCell {
  readonly controlCount: 6 | 8;
  /** True scatter, standard, mm: of control points, and of all others, half of its variance shared by all that has the name of its part. */
  readonly buildMm: number;
  readonly elsewhereMm: number;
  readonly uncertaintyMm: number;
}

/** Where the metal of each point is, by id. */
export type BuiltCar = ReadonlyMap<string, Vec3>;

/** What is read besides control points: enough to measure by, and no more, for the time that it takes. */
const read: ReadonlySet<string> = new Set([
  ...['sill-front', 'sill-middle', 'sill-rear', 'roof-front', 'tail-corner', 'pillar-low', 'pillar-middle'],
  ...['rear-rail-root', 'rear-rail-middle', 'rail-tip-upper', 'strut-top'],
]);

/** @param shift what is bent or moved of it, besides */
export function builtCar(
  { controlCount, buildMm, elsewhereMm }: BuiltCell,
  random: SeededRandom,
  shift: (point: Point) => Vec3 = () => zero,
): BuiltCar {
  const half = elsewhereMm * Math.SQRT1_2;
  const shared = new Map<string, Vec3>();
  const places = new Map<string, Vec3>();
  for (const point of controlPoints(controlCount))
    places.set(point.id, add(add(point.reference, normalVec3(random, buildMm)), shift(point)));
  for (const point of otherPoints) {
    if (!read.has(point.name)) continue;
    const group = point.part?.replace(/\.[LR]$/, '') ?? point.name;
    if (!shared.has(group)) shared.set(group, normalVec3(random, half));
    const own = add(shared.get(group) ?? zero, normalVec3(random, half));
    places.set(point.id, add(add(point.reference, own), shift(point)));
  }
  return places;
}

const pattern: Job = simulatedJob(cellAt(0), 1).job;

/** The same body as a file that states these scatters, without some of its points. */
export const bodyStating = (
  buildMm: number,
  buildElsewhereMm: number,
  without: ReadonlySet<string>,
): Chassis => ({
  ...body,
  buildMm,
  buildElsewhereMm,
  points: new Map([...body.points].filter(([, { name }]) => !without.has(name))),
});

/** A job that reads a car so many times, each time set up anew. */
export function readCar(
  car: BuiltCar,
  uncertaintyMm: number,
  {
    times,
    scope,
    order,
  }: { readonly times: number; readonly scope: readonly string[] | null; readonly order: string },
  random: SeededRandom,
): Job {
  const [first] = pattern.timeline.filter((entry) => entry.kind === 'measure');
  const timeline = Array.from({ length: times }, (_, i): Measure => {
    const rotation = anyRotation(random);
    const origin: Vec3 = [
      random.uniform(-4000, 4000),
      random.uniform(-4000, 4000),
      random.uniform(-4000, 4000),
    ];
    return {
      ...first,
      name: `stage ${i + 1}`,
      readings: [...car].map(([id, place]) => ({
        id,
        triplesMm: [add(add(transformed(rotation, place), origin), normalVec3(random, uncertaintyMm))],
        unreachable: false,
        asBefore: false,
        key: nowhere,
        value: nowhere,
        typed: null,
        hasPlainKey: false,
      })),
    };
  });
  return {
    ...pattern,
    order,
    instrument: pattern.instrument && { ...pattern.instrument, uncertaintyMm },
    base: { kind: 'auto' },
    scope: scope?.map((id) => ({ id, place: nowhere })) ?? null,
    timeline,
    signOff: null,
  };
}

export const inspectedOn = (job: Job, chassis: Chassis): Inspection => inspected(job, chassis);
