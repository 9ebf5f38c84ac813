import { bend, damagedBody } from '../body.mjs';
import { header } from '../layout.mjs';
import { bothSides, carInTheShop, onSide } from '../session.mjs';

export const path = 'jobs/w-1216-undeclared-rear.readings.yaml';

/** A knock at the front right; and the rear rails hang, of which nobody has said a word. */
const damages = [
  bend({ part: 'front-rail.R', from: 2330, slope: [-0.006, 0.018, -0.003] }),
  bend({ part: 'rear-rail', from: -760, towards: 'rear', slope: [0, 0, -0.014] }),
];

/** The job file. */
export function text({ teal }) {
  const car = carInTheShop(teal, 1216);
  const arm = car.instrument({
    frame: { yaw: 0.9, pitch: -0.2, roll: 0.3, at: [420, -260, 330] },
    axes: ['forward', 'left', 'up'],
    uncertainty: 0.3,
    repeatability: 0.2,
  });
  const readings = car.readings(arm, damagedBody(car.sound, damages), [
    '# control points',
    ...bothSides('floor-front', 'floor-rear', 'tunnel-front', 'cowl-hole', 'sill-hole-front'),
    '# right rail, the side that was hit',
    ...onSide(
      'R',
      ...['root', 'rear', 'middle', 'front', 'tip'].flatMap((name) => [
        `rail-${name}-lower`,
        `rail-${name}-upper`,
      ]),
    ),
    '# what nobody has in question',
    ...bothSides('sill-middle-lower', 'sill-rear-lower', 'pillar-belt-front', 'pillar-top-front'),
    ...bothSides(
      'rear-rail-middle-lower',
      'rear-rail-joint-lower',
      'rear-rail-rear-lower',
      'rear-rail-tip-lower',
    ),
  ]);

  return `framewright: readings/1
${header(
  'A light knock at the front right. The rear rails were read too, only to help to align the car, and they hang:',
  'an old tow with a trailer that nobody has declared.',
)}chassis: ../specs/teal-estate.chassis.yaml
order: W-1216
technician: ab
instrument: { name: bench arm 2, uncertainty: 0.3, repeatability: 0.2 }
conditions: { powertrain: in, suspension: in }
scope: [front-rail]

timeline:
  - measure: as received
    at: 2026-03-16T08:30
    readings:
${readings}
`;
}
