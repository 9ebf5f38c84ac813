import { rotationFromAngles } from '../geometry/euler';
import { add, subtract, transformed, transposed, type Vec3 } from '../geometry/vector';
import { type Inspection, inspected } from '../inspection/job/inspect';
import { chassisSheet } from '../model/read/chassis-from-text';
import { jobFrom } from '../model/read/job-from-text';
import { chassisFrom } from '../model/resolve/chassis-merge';
import { parseText } from '../text/yaml/parse';
import { type Place, type PointName, placeOf } from './marten';

/**
 * The Marten with front rails that are straight and level, so that a bend can be worked out by hand, and jobs on it written from what
 * the metal does.
 */

export const chassisText = (
  railFacts = 'steel: high-strength, straighten: freely',
): string => `framewright: chassis/1
vehicle: Marten five-door hatchback
source: { kind: published, reference: sheet 4 }
build: 0.3
parts:
  floor:      { steel: mild, straighten: freely }
  front-rail: { sided: true, along: length, ${railFacts} }
points:
${Object.entries(places)
  .map(
    ([name, { at, part, base }]) =>
      `  ${name}: { both: [${at.join(', ')}], part: ${part}${base ? ', base: true' : ''} }`,
  )
  .join('\n')}
`;

const control = (name: PointName) => ({ at: placeOf(name), part: 'floor', base: true });
const rail = (...at: [number, number, number]) => ({ at, part: 'front-rail', base: false });

/** Length, outboard, height. */
const places: Record<string, { at: Place; part: string; base: boolean }> = {
  'floor-front': control('floor-front'),
  'floor-rear': control('floor-rear'),
  'tunnel-front': control('tunnel-front'),
  'rear-floor': control('rear-floor'),
  'cowl-hole': control('cowl-hole'),
  'root-lower': rail(1760, 440, 190),
  'root-upper': rail(1760, 440, 330),
  'rear-lower': rail(2070, 440, 190),
  'rear-upper': rail(2070, 440, 330),
  'middle-lower': rail(2380, 440, 190),
  'middle-upper': rail(2380, 440, 330),
  'front-lower': rail(2690, 440, 190),
  'front-upper': rail(2690, 440, 330),
  'tip-lower': rail(3000, 440, 190),
  'tip-upper': rail(3000, 440, 330),
};

/** In vehicle axes. */
export const referenceOf = (id: string): Vec3 => {
  const { at } = places[id.slice(0, -2)];
  return [at[0], id.endsWith('.L') ? at[1] : -at[1], at[2]];
};

export const railIds = (side: 'L' | 'R'): string[] =>
  Object.keys(places)
    .filter((name) => places[name].part === 'front-rail')
    .map((name) => `${name}.${side}`);
export const controlIds = Object.keys(places)
  .filter((name) => places[name].base)
  .flatMap((name) => [`${name}.L`, `${name}.R`]);

/** How far a point is from its reference, vehicle axes, mm. */
export type Displacement = (id: string) => Vec3;

/** Where an instrument stands: readings = its turn and place applied to the car, plus its noise. */
export interface SetUp {
  readonly yaw: number;
  readonly at: Vec3;
}

export const straight: SetUp = { yaw: 0, at: [0, 0, 0] };

/** A measure of the timeline. `noise`: one value for each coordinate read. */
export function measureText(
  name: string,
  ids: readonly string[],
  displacement: Displacement,
  setUp: SetUp = straight,
  noise: () => number = () => 0,
): string {
  const back = transposed(rotationFromAngles({ yaw: setUp.yaw, pitch: 0, twist: 0 }));
  const lines = ids.map((id) => {
    const reading = transformed(back, subtract(add(referenceOf(id), displacement(id)), setUp.at));
    return `      ${id}: [${reading.map((value) => (value + noise()).toFixed(4)).join(', ')}]`;
  });
  return `  - measure: ${name}\n    readings:\n${lines.join('\n')}\n`;
}

export const jobText = (
  timeline: readonly string[],
  head = 'instrument: { name: arm, uncertainty: 0.3 }',
): string =>
  `framewright: readings/1\nchassis: marten.chassis.yaml\norder: W-1\n${head}\ntimeline:\n${timeline.join('')}`;

export function inspectionOf(chassis: string, job: string): Inspection {
  const sheet = chassisSheet('file:///shop/marten.chassis.yaml', parseText(chassis));
  return inspected(jobFrom('file:///shop/w-1.readings.yaml', parseText(job)), chassisFrom([sheet]));
}
