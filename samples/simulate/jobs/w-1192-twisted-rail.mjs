import { bend, damagedBody, released, twist } from '../body.mjs';
import { header } from '../layout.mjs';
import { bothSides, carInTheShop, onSide } from '../session.mjs';

export const path = 'jobs/w-1192-twisted-rail.readings.yaml';

const SIDEWAYS = 33; // the whole damage at the tip, mm
const LENGTH = 8;

/** The left rail with shares of its damage left in it; the twist turns about the lower points. */
function railState({ sideways, length, twistDegrees }) {
  const past = 3012 - 2260;
  return [
    bend({ part: 'front-rail.L', from: 2260, slope: [0, -SIDEWAYS / past, -9 / past], share: sideways }),
    bend({ part: 'front-rail.L', from: 2260, slope: [-LENGTH / past, 0, 0], share: length }),
    twist({ part: 'front-rail.L', from: 2350, to: 3012, degrees: twistDegrees, pivot: [448, 208] }),
  ];
}

const asReceived = { sideways: 1, length: 1, twistDegrees: 5.4 };
const underFirst = { sideways: 0.22, length: 0.1, twistDegrees: 4.8 };
const afterFirst = {
  sideways: released(1, underFirst.sideways, SIDEWAYS),
  length: released(1, underFirst.length, LENGTH, { constant: 1.5 }),
  twistDegrees: 5.1,
};
const underSecond = { sideways: -0.19, length: -0.26, twistDegrees: 4.4 };
const afterSecond = {
  sideways: released(afterFirst.sideways, underSecond.sideways, SIDEWAYS),
  length: released(afterFirst.length, underSecond.length, LENGTH, { constant: 1.5 }),
  twistDegrees: 4.7,
};

const control = [
  ...bothSides('floor-front', 'floor-rear', 'tunnel-front', 'rear-floor'),
  ...bothSides('sill-hole-front', 'sill-hole-rear', 'rear-rail-root-lower'),
];
const stations = ['rail-root', 'rail-rear', 'rail-middle', 'rail-front', 'rail-tip'];
const levels = stations.flatMap((name) => [`${name}-lower`, `${name}-upper`]);
const pulled = onSide(
  'L',
  'rail-middle-lower',
  'rail-front-lower',
  'rail-front-upper',
  'rail-tip-lower',
  'rail-tip-upper',
);

/** The job file. */
export function text({ marten }) {
  const car = carInTheShop(marten, 1192);
  const quality = { axes: ['rearward', 'right', 'up'], uncertainty: 0.3, repeatability: 0.2 };
  const first = car.instrument({
    ...quality,
    frame: { yaw: -4.1, pitch: 0.9, roll: 0.3, at: [-2210, 655, 418] },
  });
  const second = car.instrument({
    ...quality,
    frame: { yaw: 3.2, pitch: 0.7, roll: -0.8, at: [-2174, -702, 421] },
  });
  const read = (arm, state, items) => car.readings(arm, damagedBody(car.sound, railState(state)), items);

  const received = read(first, asReceived, [
    '# control points',
    ...control,
    '# left rail, root to tip, each station lower and upper',
    ...onSide('L', ...levels),
    '# right rail, to have something to compare it with',
    ...onSide('R', ...levels),
    ...bothSides('strut-top'),
  ]);
  const firstPeak = read(first, underFirst, pulled);
  const firstRest = read(second, afterFirst, [
    '# control points again, the arm was moved',
    ...control,
    ...onSide('L', ...levels),
  ]);
  const secondPeak = read(second, underSecond, pulled);
  const secondRest = read(second, afterSecond, [
    '# control points',
    ...control,
    '# lower points: all home',
    ...onSide('L', ...stations.map((name) => `${name}-lower`)),
    '# upper points: not',
    ...onSide('L', ...stations.map((name) => `${name}-upper`)),
    ...onSide('R', 'rail-tip-lower', 'rail-tip-upper'),
  ]);

  return `framewright: readings/1
${header(
  'Half-way. Two pulls have brought the lower points of the left rail home; its upper points are still inboard.',
  'Anyone who had read only the lower holes would have called it finished.',
)}chassis: ../specs/marten-hatch.chassis.yaml
order: W-1192
technician: jm
instrument: { name: bench arm 1, uncertainty: 0.3, repeatability: 0.2 }
axes: [rearward, right, up]       # arm stands in front of the car and looks at it
base: { between: [-1200, 1300] }  # nothing behind the cowl was touched
conditions: { powertrain: out, suspension: in }   # engine out for the new subframe; the sheet has it in
anchors: [sill-hole-front, sill-hole-rear]        # four clamps on the sill flanges
scope: [front-rail.L, front-rail.R]

timeline:
  - measure: as received
    at: 2026-03-04T08:20
    readings:
${received}
  - note: rail opens inward from just ahead of the strut. No kink, paint whole, so it may be straightened.
  - pull: left rail tip out and forward
    part: front-rail.L
    chains:
      - { hook: rail-tip-lower.L, direction: [0.25, 1, 0.25], force: 21 kN }
    hold: [{ part: front-rail.L, at: 2060 }]      # on straight metal, behind where it opens
    note: safety chain on, nobody in line with it
  - measure: under load
    at: 2026-03-04T10:45
    readings:
${firstPeak}
  - relieve: [front-rail.L]       # dressed round the bend with the dolly, load held
  - release: all
  - measure: after first pull
    set-up: new                   # arm moved to the other end of the bench over lunch
    at: 2026-03-04T13:05
    readings:
${firstRest}
  - pull: left rail tip again, a little past the mark
    part: front-rail.L
    chains:
      - { hook: rail-tip-lower.L, direction: [0.2, 1, 0.25], force: 24 kN }
    hold: [{ part: front-rail.L, at: 2060 }]
  - measure: under load, second
    at: 2026-03-04T14:30
    readings:
${secondPeak}
  - relieve: [front-rail.L]
  - release: all
  - measure: after second pull
    at: 2026-03-04T15:10
    readings:
${secondRest}
  - note: top still leans in. Next a couple, lower hook held and upper hook out. Tomorrow, not tonight.
`;
}
