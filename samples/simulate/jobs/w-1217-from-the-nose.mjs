import { bend, damagedBody } from '../body.mjs';
import { header } from '../layout.mjs';
import { bothSides, carInTheShop, onSide } from '../session.mjs';

export const path = 'jobs/w-1217-from-the-nose.readings.yaml';

/** The left rail bent to the right from 900 behind the nose on. */
const damages = [bend({ part: 'front-rail.L', from: -900, slope: [-0.01, -0.045, 0.006] })];

/** The job file. */
export function text({ martenNose }) {
  const car = carInTheShop(martenNose, 1214);
  const body = damagedBody(car.sound, damages);
  const arm = car.instrument({
    frame: { yaw: -1.4, pitch: 0.3, roll: 0.2, at: [2904.1, 55.3, 611.9] },
    uncertainty: 0.4,
    repeatability: 0.25,
    spanUncertainty: 1,
  });
  const readings = car.readings(arm, body, [
    '# control points',
    ...bothSides('floor-front', 'floor-rear', 'tunnel-front', 'rear-floor', 'cowl-hole'),
    ...bothSides('sill-hole-front', 'sill-hole-rear'),
    '# left rail, root to tip, lower and upper',
    ...onSide('L', 'rail-root-lower', 'rail-root-upper', 'rail-rear-lower', 'rail-rear-upper'),
    ...onSide('L', 'rail-middle-lower', 'rail-middle-upper', 'rail-front-lower', 'rail-front-upper'),
    ...onSide('L', 'rail-tip-lower', 'rail-tip-upper'),
    '# right rail',
    ...onSide('R', 'rail-root-lower', 'rail-root-upper', 'rail-middle-lower', 'rail-middle-upper'),
    ...onSide('R', 'rail-tip-lower', 'rail-tip-upper'),
  ]);
  return `framewright: readings/1
${header(
  'Left rail bent. The sheet counts rearward from the nose, and so do places along the car here; the arm counts',
  'forward, as it always does.',
)}chassis: ../specs/marten-nose.chassis.yaml
order: W-1217
technician: jm
instrument: { name: bench arm 2, uncertainty: 0.4, repeatability: 0.25, span-uncertainty: 1.0 }
base: { between: [1600, 4400] }   # of the sheet: from the bulkhead rearward
conditions: { powertrain: in, suspension: in }
scope: [front-rail]

timeline:
  - measure: as received
    at: 2026-03-13T08:30
    readings:
${readings}
  - observe: buckle
    part: apron.L
    at: 980
  - pull: left rail to the left
    part: front-rail.L
    hook: rail-tip-lower.L
    direction: [0, 1, 0]
    hold: { part: front-rail.L, at: 1020 }
`;
}
