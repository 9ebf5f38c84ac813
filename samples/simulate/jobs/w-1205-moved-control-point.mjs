import { bend, damagedBody, movedPoint } from '../body.mjs';
import { header } from '../layout.mjs';
import { bothSides, carInTheShop, onSide } from '../session.mjs';

export const path = 'jobs/w-1205-moved-control-point.readings.yaml';

/** Up and in where a jack once stood, 7.9 mm in all; and a knock at the right rail. */
const damages = [
  movedPoint('sill-hole-rear.R', [0.6, 3.1, 7.2]),
  bend({ part: 'front-rail.R', from: 2330, slope: [-0.008, 0.021, -0.004] }),
];

const levels = ['root', 'rear', 'middle', 'front', 'tip'].flatMap((name) => [
  `rail-${name}-lower`,
  `rail-${name}-upper`,
]);

/** The job file. */
export function text({ teal }) {
  const car = carInTheShop(teal, 1205);
  const body = damagedBody(car.sound, damages);
  const bridge = car.instrument({
    frame: { pitch: 0.35, at: [2400, 0.4, 306] },
    axes: ['forward', 'outboard', 'up'],
    uncertainty: 0.5,
    repeatability: 0.3,
  });
  const readings = car.readings(bridge, body, [
    '# control points',
    ...bothSides('floor-front', 'floor-rear', 'tunnel-front', 'cowl-hole', 'sill-hole-front'),
    'sill-hole-rear.L',
    { id: 'sill-hole-rear.R', repeats: 2, remark: 'read it again, same both times' },
    '# right rail, the side that was hit',
    ...onSide('R', ...levels),
    '# left rail',
    ...onSide('L', ...levels),
    ...bothSides('strut-top'),
    'latch',
  ]);

  return `framewright: readings/1
${header(
  'A light knock at the front right, on a car that someone once lifted with a jack under the right sill: that',
  'control point is not where the sheet has it. Aligned on it blindly, the whole nose would look twisted.',
)}chassis: ../specs/teal-estate.chassis.yaml
order: W-1205
technician: ab
instrument: { name: measuring bridge, uncertainty: 0.5, repeatability: 0.3 }
axes: [forward, outboard, up]     # the bridge reads width outward from its own centre line
base: auto                        # let the points tell which of them can be trusted
conditions: { powertrain: in, suspension: in }
scope: [front-rail, apron]

timeline:
  - measure: as received
    at: 2026-03-10T10:05
    readings:
${readings}
  - observe: corrosion
    part: sill.R
    at: -400                      # flange crushed and rusty round the jacking point: an old story
`;
}
