import { type Inspection, inspected } from '../inspection/job/inspect';
import { chassisSheet } from '../model/read/chassis-from-text';
import { jobFrom } from '../model/read/job-from-text';
import { chassisFrom } from '../model/resolve/chassis-merge';
import { parseText } from '../text/yaml/parse';
import { martenWith, type PointName, placeOf } from './marten';

/**
 * The front of the Marten for the tests of what is measured: the instrument stands along the car, so a reading is its reference plus
 * what is wrong with it, and figures can be seen by eye.
 */
const base: readonly PointName[] = ['floor-front', 'floor-rear', 'tunnel-front', 'cowl-hole'];
const judged: readonly PointName[] = [
  ...(['rail-root-lower', 'rail-root-upper', 'rail-tip-lower', 'rail-tip-upper'] as const),
  ...(['strut-top', 'latch'] as const),
];

/** `facts`: what is recorded of a part in place of what is usual. */
export const carWith = (facts: Readonly<Record<string, string>> = {}): string =>
  `${martenWith([...base, ...judged], facts)}spans:
  - { from: rail-tip-lower.L, to: strut-top.R, distance: 1411.8 }
`;

export const carChassis = carWith();

/** Rows for all control points where they belong. */
export const soundBase = base
  .flatMap((name) => {
    const [x, y, z] = placeOf(name);
    return [`      ${name}.L: [${x}, ${y}, ${z}]`, `      ${name}.R: [${x}, ${-y}, ${z}]`];
  })
  .join('\n');

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

/** A job on that car, or on another. */
export const filesOf = (job: string, chassis = carChassis): Record<string, string> => ({
  'car.chassis.yaml': chassis,
  'w.readings.yaml': job,
});

/** The inspection of a job's text on a chassis' text. */
export const inspectionOf = (job: string, chassis = carChassis): Inspection =>
  inspected(
    jobFrom('file:///w.readings.yaml', parseText(job)),
    chassisFrom([chassisSheet('file:///car.chassis.yaml', parseText(chassis))]),
  );
