import { chassisSheet } from '../model/read/chassis-from-text';
import { jobFrom } from '../model/read/job-from-text';
import { chassisFrom } from '../model/resolve/chassis-merge';
import { parseText } from '../text/yaml/parse';
import { type Inspection, inspected } from './job/inspect';

/**
 * A small car for the tests of what is measured: the instrument stands along the car, so a reading is its reference plus what is
 * wrong with it, and figures can be seen by eye.
 */
export const carChassis = `framewright: chassis/1
vehicle: Marten five-door hatchback
source: { kind: published }
conditions: { powertrain: in }
build: 0.1
parts:
  floor: { steel: mild, straighten: freely }
  front-rail: { sided: true, steel: high-strength, straighten: minor }
  apron: { sided: true, steel: mild, straighten: freely }
points:
  floor-front: { both: [1200, 420, 95], part: floor, base: true }
  floor-rear: { both: [-350, 455, 90], part: floor, base: true }
  tunnel-front: { both: [905, 188, 242], part: floor, base: true }
  cowl-hole: { both: [1480, 612, 905], part: floor, base: true }
  rail-root-lower: { both: [1760, 441, 188], part: front-rail }
  rail-root-upper: { both: [1760, 445, 328], part: front-rail }
  rail-tip-lower: { both: [3012, 448, 210], part: front-rail }
  rail-tip-upper: { both: [3012, 452, 352], part: front-rail }
  strut-top: { both: [2250, 561, 830], part: apron }
  latch: { centre: [3050, 0, 780] }
spans:
  - { from: rail-tip-lower.L, to: strut-top.R, distance: 1411.8 }
`;

/** Rows for all control points where they belong. */
export const soundBase = `      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]
      tunnel-front.L: [905, 188, 242]
      tunnel-front.R: [905, -188, 242]
      cowl-hole.L: [1480, 612, 905]
      cowl-hole.R: [1480, -612, 905]`;

/** A job on that car. `head`: further top-level lines. */
export const jobOn = (
  timeline: string,
  head = 'instrument: { name: arm, uncertainty: 0.2 }',
): string => `framewright: readings/1
chassis: car.chassis.yaml
${head}
timeline:
${timeline}
`;

/** One measure on a sound base, with further rows. */
export const measured = (rows: string, name = 'as received'): string => `  - measure: ${name}
    readings:
${soundBase}
${rows}`;

/** The inspection of a job's text on a chassis' text. */
export const inspectionOf = (job: string, chassis = carChassis): Inspection =>
  inspected(
    jobFrom('file:///w.readings.yaml', parseText(job)),
    chassisFrom([chassisSheet('file:///car.chassis.yaml', parseText(chassis))]),
  );
