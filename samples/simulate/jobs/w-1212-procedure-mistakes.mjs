import { bend, damagedBody, moved } from '../body.mjs';
import { header } from '../layout.mjs';
import { bothSides, carInTheShop, onSide } from '../session.mjs';

export const path = 'jobs/w-1212-procedure-mistakes.readings.yaml';

/** The left rail in and back; the right pillar in a little. `share` is what is left of the rail's bend. */
const state = (share) => [
  bend({ part: 'front-rail.L', from: 2280, slope: [-0.02, -0.036, 0], share }),
  moved('centre-pillar.R', ({ reference }) => [0, reference[2] < 400 || reference[2] > 1100 ? 0.4 : 8.5, 0]),
];

const control = bothSides(
  ...['floor-front', 'floor-rear', 'tunnel-front', 'rear-floor', 'cowl-hole'],
  ...['sill-hole-front', 'sill-hole-rear', 'rear-rail-root-lower'],
);
const levels = ['root', 'rear', 'middle', 'front', 'tip'].flatMap((name) => [
  `rail-${name}-lower`,
  `rail-${name}-upper`,
]);
const pillar = ['foot', 'hinge', 'belt', 'top'].flatMap((name) => [
  `pillar-${name}-front`,
  `pillar-${name}-rear`,
]);

/** The job file. */
export function text({ marten }) {
  const car = carInTheShop(marten, 1212);
  const arm = car.instrument({
    frame: { yaw: -1.9, pitch: 0.4, roll: 178.6, at: [320, 88, 1460] },
    axes: ['forward', 'right', 'down'],
    uncertainty: 0.4,
    repeatability: 0.25,
  });
  const read = (share, items) => car.readings(arm, damagedBody(car.sound, state(share)), items);
  const received = read(1, [...control, ...onSide('L', ...levels), ...onSide('R', ...levels, ...pillar)]);
  const after = read(0.4, [...control, ...onSide('L', ...levels), ...onSide('R', ...pillar)]);
  const last = read(-0.05, onSide('L', 'rail-front-lower', 'rail-tip-lower', 'rail-tip-upper'));

  return `framewright: readings/1
${header(
  'Measured right and worked wrong, then signed: everything here that the maker forbids, or that undoes itself.',
  'Meant to be wrong; each slip has its remark. Never work like this.',
)}chassis: ../specs/marten-hatch.chassis.yaml
order: W-1212
technician: the new man
instrument: { name: bench arm 2, uncertainty: 0.4, repeatability: 0.25 }
axes: [forward, right, down]      # arm hangs from the gantry
base: auto
conditions: { powertrain: in, suspension: in }
scope: [front-rail, centre-pillar.R]

timeline:
  - measure: as received
    at: 2026-03-12T08:15
    readings:
${received}
  - observe: kink                 # a kinked rail of this steel is not straightened
    part: front-rail.L
    at: 2400
  - pull: left rail out           # pulled all the same, and held by nothing near the bend
    part: front-rail.L
    chains:
      - { hook: rail-tip-lower.L, direction: [0.3, 1, 0], force: 24 kN }
  - heat: front-rail.L            # the sheet says never
    to: 350 C
    for: 120 s
  - release: all                  # let go without being dressed: it will creep back
  - pull: right pillar out        # press-hardened: replaced, never pulled
    part: centre-pillar.R
    chains:
      - { hook: pillar-belt-front.R, direction: [0, 1, 0], force: 9 kN }    # and to the left, when it is in too far
  - relieve: [centre-pillar.R]
  - release: all
  - measure: after the pulls
    at: 2026-03-12T14:50
    readings:
${after}
  - section: front-rail.L         # in the band, but in metal that was bent and pulled
    at: 2600
  - section: front-rail.R         # behind the band
    at: 2310
  - heat: apron.R                 # nothing on the sheet about heat, and the steel is not mild
    to: 180 C
    for: 60 s
  - pull: left rail, the last bit
    part: front-rail.L
    chains:
      - { hook: rail-tip-lower.L, direction: [0.3, 1, 0], force: 20 kN }
    hold: [{ part: front-rail.L, at: 2060 }]
  - measure: under load           # the last reading, taken with the chain still on
    readings:
${last}

sign-off:
  by: the new man
  date: 2026-03-12
  readings: seal1-0badc0de0badc0de    # the job has been changed since
  chassis: seal1-0badc0de0badc0de     # the sheet has been changed since, or this is another one
  judged-by: 0.2
`;
}
