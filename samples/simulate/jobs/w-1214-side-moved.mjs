import { damagedBody, dent } from '../body.mjs';
import { header } from '../layout.mjs';
import { bothSides, carInTheShop, onSide } from '../session.mjs';
import { sum } from '../vector.mjs';

export const path = 'jobs/w-1214-side-moved.readings.yaml';

const control = ['floor-front', 'floor-rear', 'rear-floor', 'rear-rail-root-lower'];

/** The left half of the floor went up as one piece, and its control points with it. */
const leftFloor = (point, position) =>
  point.base && point.side === 'L' ? sum(position, [-0.4, -0.8, 6.8]) : position;
const sill = dent({ part: 'sill.L', centre: 330, reach: 900, depth: [-2, -14, 6] });

/** The job file. */
export function text({ marten }) {
  const car = carInTheShop(marten, 1214);
  const arm = car.instrument({
    frame: { yaw: -2.1, pitch: 0.4, roll: 0.7, at: [-310, 980, 415] },
    axes: ['forward', 'left', 'up'],
    uncertainty: 0.3,
    repeatability: 0.2,
  });
  const readings = car.readings(arm, damagedBody(car.sound, [leftFloor, sill]), [
    '# control points',
    ...bothSides(...control),
    '# left sill, the side that was hit',
    ...onSide('L', 'sill-front-lower', 'sill-middle-lower', 'sill-rear-lower'),
    '# what nobody has in question',
    ...bothSides('strut-top', 'rail-root-lower', 'rail-middle-lower'),
    ...onSide('R', 'pillar-foot-front', 'pillar-belt-front', 'pillar-top-front'),
    ...bothSides('rear-panel-lower', 'tailgate-hinge', 'tailgate-corner'),
  ]);

  return `framewright: readings/1
${header(
  'Struck hard in the left side: floor and control points of that side have moved together. They agree with each',
  'other, and it is what stands around them that shows it.',
)}chassis: ../specs/marten-hatch.chassis.yaml
order: W-1214
technician: ab
instrument: { name: bench arm 2, uncertainty: 0.3, repeatability: 0.2 }
base: auto                        # nothing is said of the sound zone yet
conditions: { powertrain: in, suspension: in }
scope: [sill.L, centre-pillar.L, floor]

timeline:
  - measure: as received
    at: 2026-03-12T09:20
    readings:
${readings}
`;
}
