import { placeOf } from './marten';

/**
 * A Marten, its van, a Teal that shares nothing with them but a name, and a job on each. Names are short and written in several ways,
 * since what is looked at here is their places in the text.
 */

const at = (name: 'rail-tip-lower' | 'floor-front' | 'latch'): string => `[${placeOf(name).join(', ')}]`;

const hatch = `framewright: chassis/1
vehicle: Marten
parts:
  rail: { sided: true }
  floor: {}
points:
  tip:   { both: ${at('rail-tip-lower')}, part: rail }
  floor-front: { both: ${at('floor-front')}, part: floor, base: true }
  latch: { centre: ${at('latch')} }
spans:
  - { from: tip.L, to: latch, distance: 726 }
  - { from: tip, to: floor-front, distance: 1816, pairs: straight }
`;

const van = `framewright: chassis/1
extends: ./hatch.chassis.yaml
vehicle: Marten van
points:
  tip: { both: [3212, 448, 210], part: "rail" }   # the tip is longer
  latch: ~
`;

const other = `framewright: chassis/1
vehicle: Teal
points:
  tip: { both: [2900, 400, 200] }
`;

const hatchJob = `framewright: readings/1
chassis: ../specs/hatch.chassis.yaml
order: W-1
base: [floor-front.L, floor-front.R]
anchors: [tip]
scope: [rail.L]
timeline:
  - measure: as received
    readings:
      'tip.L': [3000, 448, 210]
      tip.R: [3012, -448, 210]     # tip of the right rail
    spans:
      - [tip.L, latch, 720]
    summary:
      rail.L twist: none
  - pull: tip to the left
    part: rail.L
    chains:
      - { hook: tip.L, direction: [0, 1, 0] }
    hold: [{ part: rail.L, at: 1900 }, floor-front.L]
  - release: all
sign-off:
  by: rk
  accepted: [{ point: tip.L, reason: tip is slotted }]
`;

const vanJob =
  'framewright: readings/1\nchassis: ../specs/van.chassis.yaml\norder: W-2\ntimeline:\n  - measure: a\n    readings: { tip.L: [1, 2, 3] }\n';
const otherJob =
  'framewright: readings/1\nchassis: ../specs/other.chassis.yaml\norder: W-3\ntimeline:\n  - measure: a\n    readings: { tip.L: [1, 2, 3] }\n';

export const twoBodies: Readonly<Record<string, string>> = {
  'specs/hatch.chassis.yaml': hatch,
  'specs/van.chassis.yaml': van,
  'specs/other.chassis.yaml': other,
  'jobs/w-1.readings.yaml': hatchJob,
  'jobs/w-2.readings.yaml': vanJob,
  'jobs/w-3.readings.yaml': otherJob,
};
