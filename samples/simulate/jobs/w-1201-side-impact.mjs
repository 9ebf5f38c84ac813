import { damagedBody, dent, moved, released } from '../body.mjs';
import { header } from '../layout.mjs';
import { bothSides, carInTheShop, onSide } from '../session.mjs';

export const path = 'jobs/w-1201-side-impact.readings.yaml';

const SILL_DEPTH = 17; // inboard, mm

/** The left sill with a share of its bow left in it. */
const sillState = (share) => [
  dent({ part: 'sill.L', centre: 330, reach: 600, depth: [0, -SILL_DEPTH, 4], share }),
];

/** How far in the old pillar stands at a height, and how far back: worst at the lower hinge, little at the roof. */
const intrusion = [
  [300, -17],
  [571, -39],
  [868, -31],
  [1204, -5],
];

const oldPillar = moved('centre-pillar.L', ({ reference }) => {
  const [, inward] = intrusion.find(([height]) => Math.abs(height - reference[2]) < 40);
  const turn = (reference[0] - 310) * 0.03; // the front edge went in further
  return [-4, inward - turn, 2];
});

/** The new pillar hangs in its clamps: foot and hinge right, the belt line out too far. */
const newPillar = moved('centre-pillar.L', ({ reference }) =>
  Math.abs(reference[2] - 868) < 40 ? [0.3, 5.6, 0.2] : [0.3, 0.4, -0.3],
);

const afterFirst = released(1, 0.12, SILL_DEPTH, { constant: 2.6 });
const afterSecond = released(afterFirst, -0.2, SILL_DEPTH, { constant: 2.6 });

const control = [
  ...bothSides('floor-front', 'tunnel-front', 'rear-floor', 'cowl-hole', 'rear-rail-root-lower'),
  ...onSide('R', 'sill-hole-front', 'sill-hole-rear', 'floor-rear'),
];
const sill = [
  'sill-front-lower',
  'sill-front-upper',
  'sill-middle-lower',
  'sill-middle-upper',
  'sill-rear-lower',
  'sill-rear-upper',
];
const pillar = ['foot', 'hinge', 'belt', 'top'].flatMap((name) => [
  `pillar-${name}-front`,
  `pillar-${name}-rear`,
]);

/** The job file. */
export function text({ marten }) {
  const car = carInTheShop(marten, 1201);
  const arm = car.instrument({
    frame: { yaw: 1.4, pitch: 0.2, roll: -1.1, at: [155, 1240, 380] },
    axes: ['right', 'forward', 'up'],
    uncertainty: 0.4,
    repeatability: 0.25,
    spanUncertainty: 1.2,
  });
  const received = damagedBody(car.sound, [...sillState(1), oldPillar]);
  const receivedReadings = car.readings(arm, received, [
    '# control points: the right side, the tunnel and the two ends',
    ...control,
    { id: 'sill-hole-front.L', repeats: 2, remark: 'read as well, not leaned on' },
    { id: 'sill-hole-rear.L', repeats: 2 },
    '# left sill',
    ...onSide('L', ...sill),
    '# right sill',
    ...onSide('R', ...sill),
    '# left pillar, front and rear edge, foot to roof',
    ...onSide('L', ...pillar),
    '# right pillar',
    ...onSide('R', ...pillar),
  ]);
  const receivedSpans = car.spans(arm, received, [
    ['pillar-belt-front.L', 'pillar-belt-front.R', 'tape, doors off'],
  ]);
  const sillRead = (share, items) =>
    car.readings(arm, damagedBody(car.sound, [...sillState(share), oldPillar]), items);
  const firstPeak = sillRead(0.12, onSide('L', 'sill-middle-lower', 'sill-middle-upper'));
  const firstRest = sillRead(afterFirst, [...control, ...onSide('L', ...sill)]);
  const secondPeak = sillRead(-0.2, onSide('L', 'sill-middle-lower', 'sill-middle-upper'));
  const secondRest = sillRead(afterSecond, [...control, ...onSide('L', ...sill)]);
  const clamped = damagedBody(car.sound, [...sillState(afterSecond), newPillar]);
  const clampedReadings = car.readings(arm, clamped, [...control, ...onSide('L', ...pillar)]);
  const clampedSpans = car.spans(arm, clamped, [['pillar-belt-front.L', 'pillar-belt-front.R']]);

  return `framewright: readings/1
${header(
  'Struck in the left side at the centre pillar. The sill is pulled, the press-hardened pillar is not: it is',
  'replaced. The new one hangs in its clamps and is measured before anything is welded.',
)}chassis: ../specs/marten-hatch.chassis.yaml
order: W-1201
technician: ab
instrument: { name: bench arm 2, uncertainty: 0.4, repeatability: 0.25, span-uncertainty: 1.2 }
axes: [right, forward, up]        # arm set up beside the car, on its left
base:                             # stated, not searched: everything near the blow is left out
  - floor-front.L
  - floor-front.R
  - tunnel-front.L
  - tunnel-front.R
  - rear-floor.L
  - rear-floor.R
  - cowl-hole.L
  - cowl-hole.R
  - rear-rail-root-lower.L
  - rear-rail-root-lower.R
  - sill-hole-front.R
  - sill-hole-rear.R
  - floor-rear.R
conditions: { powertrain: in, suspension: in }
anchors: [sill-hole-front.R, sill-hole-rear.R, floor-front]
scope: [centre-pillar.L, sill.L]

timeline:
  - measure: as received
    at: 2026-03-09T08:40
    note: doors, seats and carpet out; side airbag and belt tensioner made safe by the book first
    readings:
${receivedReadings}
    spans:
${receivedSpans}
  - observe: kink
    part: centre-pillar.L
    at: 590                       # height: just above the lower hinge
    note: press-hardened, so no chain goes on it and no torch. New pillar ordered.
  - note: sill has one long bow and no kink, so it may be pulled
  - pull: left sill out at the pillar foot
    part: sill.L
    chains:
      - { hook: sill-middle-lower.L, direction: [0, 1, -0.2], force: 26 kN }
    hold: [{ part: sill.L, at: 860 }, { part: sill.L, at: -180 }]
  - measure: under load
    readings:
${firstPeak}
  - relieve: [sill.L]
  - release: all
  - measure: after first pull
    at: 2026-03-09T11:15
    readings:
${firstRest}
  - pull: left sill out once more
    part: sill.L
    chains:
      - { hook: sill-middle-lower.L, direction: [0, 1, -0.2], force: 29 kN }
    hold: [{ part: sill.L, at: 860 }, { part: sill.L, at: -180 }]
  - measure: under load, second
    readings:
${secondPeak}
  - relieve: [sill.L]
  - release: all
  - measure: after second pull
    at: 2026-03-09T13:50
    readings:
${secondRest}
  - note: sill is home. Old pillar drilled out at the factory joints.
  - replace: centre-pillar.L
  - measure: new pillar in clamps
    at: 2026-03-11T09:30
    note: nothing welded yet
    readings:
${clampedReadings}
    spans:
${clampedSpans}
  - note: foot, hinge and roof are right. Belt line stands out, slacken the middle clamp and read again.
`;
}
