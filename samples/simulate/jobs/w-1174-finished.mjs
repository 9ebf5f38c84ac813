import { bend, damagedBody, isOn, moved, released } from '../body.mjs';
import { header } from '../layout.mjs';
import { bothSides, carInTheShop, onSide } from '../session.mjs';
import { sum } from '../vector.mjs';

export const path = 'jobs/w-1174-finished.readings.yaml';

const SIDEWAYS = 34; // the whole damage at the rail tip, mm
const OPENING = 13; // at the left corner of the opening

/** The left rear rail bent in and up; the panel and the left of the opening went with it. */
function tailState({ rail, opening }) {
  const past = 1650 - 1225;
  return [
    bend({
      part: 'rear-rail.L',
      from: -1225,
      towards: 'rear',
      slope: [13 / past, -SIDEWAYS / past, 8 / past],
      share: rail,
    }),
    moved('rear-panel', ({ reference }) => [(8 + reference[1] * 0.013) * rail, -19 * rail, 3 * rail]),
    (point, position) => {
      if (!isOn(point, 'tailgate-opening') || point.side !== 'L') return position;
      const share = (opening * Math.max(0, 1424 - point.reference[2])) / (1424 - 618);
      return sum(position, [8 * share, -OPENING * share, 0]);
    },
  ];
}

const received = { rail: 1, opening: 1 };
const underFirst = { rail: 0.05, opening: 0.7 };
const afterFirst = { rail: released(1, 0.05, SIDEWAYS, { constant: 3 }), opening: 0.75 };
const underSecond = { rail: afterFirst.rail, opening: -0.34 };
const afterSecond = { rail: afterFirst.rail, opening: released(0.75, -0.34, OPENING, { constant: 2.7 }) };
const finished = { rail: 0, opening: afterSecond.opening };

const control = bothSides(
  ...['floor-front', 'floor-rear', 'tunnel-front', 'rear-floor', 'cowl-hole'],
  ...['sill-hole-front', 'sill-hole-rear', 'rear-rail-root-lower'],
);
const stations = ['root', 'middle', 'joint', 'rear', 'end', 'tip'];
const rail = stations
  .flatMap((name) => [`rear-rail-${name}-lower`, `rear-rail-${name}-upper`])
  .filter((name) => name !== 'rear-rail-root-lower'); // read with the control points
const opening = ['tailgate-hinge', 'tailgate-shoulder', 'tailgate-corner'];
const tail = [
  '# rear rails',
  ...onSide('L', ...rail),
  ...onSide('R', ...rail),
  '# rear panel and tailgate opening',
  ...bothSides('rear-panel-lower'),
  'rear-panel-latch',
  ...bothSides(...opening),
];

/** The job file. */
export function text({ teal }) {
  const car = carInTheShop(teal, 1174);
  const arm = car.instrument({
    frame: { yaw: 176.8, pitch: 0.5, roll: 0.6, at: [-610, 204, 512] },
    uncertainty: 0.3,
    repeatability: 0.2,
    spanUncertainty: 0.5,
  });
  const body = (state) => damagedBody(car.sound, tailState(state));
  const read = (state, items) => car.readings(arm, body(state), items);

  const receivedReadings = read(received, ['# control points', ...control, ...tail]);
  const firstPeak = read(
    underFirst,
    onSide('L', 'rear-rail-rear-lower', 'rear-rail-end-lower', 'rear-rail-tip-lower', 'rear-rail-tip-upper'),
  );
  const firstRest = read(afterFirst, ['# control points', ...control, ...tail]);
  const secondPeak = read(underSecond, onSide('L', 'tailgate-corner', 'tailgate-shoulder'));
  const secondRest = read(afterSecond, [
    ...bothSides('rear-floor', 'rear-rail-root-lower', 'floor-rear', 'sill-hole-rear', 'cowl-hole'),
    ...bothSides(...opening),
  ]);
  const finalBody = body(finished);
  const finalItems = ['# control points', ...control, ...tail].map((item) =>
    item.includes('rear-rail-tip') ? { id: item, repeats: 2 } : item,
  );
  const finalReadings = car.readings(arm, finalBody, finalItems);
  const finalSpans = car.spans(arm, finalBody, [
    ['tailgate-hinge.L', 'tailgate-corner.R'],
    ['tailgate-hinge.R', 'tailgate-corner.L'],
    ['tailgate-corner.L', 'tailgate-corner.R'],
    ['rear-rail-root-lower.L', 'rear-rail-tip-lower.R'],
    ['rear-rail-root-lower.R', 'rear-rail-tip-lower.L'],
  ]);

  return `framewright: readings/1
${header(
  'Rear left hit, finished and signed. Pulled first so that everything round it came home, then the end of the',
  'rail renewed in sound metal and the panel replaced, then measured again with the wheels on.',
)}chassis: ../specs/teal-estate.chassis.yaml
order: W-1174
technician: jm
instrument: { name: bench arm 1, uncertainty: 0.3, repeatability: 0.2, span-uncertainty: 0.5 }
base: auto
conditions: { powertrain: in }
anchors: [sill-hole-front, sill-hole-rear]
scope: [rear-rail.L, rear-rail.R, rear-panel, tailgate-opening]

timeline:
  - measure: as received
    at: 2026-02-16T09:00
    readings:
${receivedReadings}
  - pull: left rear rail back and out
    part: rear-rail.L
    chains:
      - { hook: rear-rail-tip-lower.L, direction: [-0.4, 1, -0.25], force: 19 kN }
    hold: [{ part: rear-rail.L, at: -1000 }]      # ahead of the bend, on straight metal
    note: tank drained and out, as the manual wants it
  - measure: under load
    readings:
${firstPeak}
  - relieve: [rear-rail.L]
  - release: all
  - measure: after first pull
    at: 2026-02-16T14:20
    readings:
${firstRest}
  - observe: crack
    part: rear-rail.L
    at: -1480                     # opened at the bead while it was dressed; this end gets renewed
  - pull: left corner of the tailgate opening
    part: tailgate-opening
    chains:
      - { hook: tailgate-corner.L, direction: [-0.6, 1, 0], force: 6 kN }
    hold: [{ part: rear-rail.R, at: -1090 }]      # cross strut from the right rail, tank still out
  - measure: under load, opening
    readings:
${secondPeak}
  - relieve: [tailgate-opening]
  - release: all
  - measure: after second pull
    at: 2026-02-17T10:40
    readings:
${secondRest}
  - section: rear-rail.L          # in the band, and ahead of where it was bent: the joint is in metal never pulled
    at: -1090
  - replace: rear-panel
  - join: [rear-rail.L, rear-panel]
    with: welded
    to: [rear-rail.R, tailgate-opening]
  - measure: finished
    at: 2026-02-20T15:30
    by: rk
    conditions: { powertrain: in, suspension: in }
    note: welded, cooled, off the clamps, on its wheels' mountings; read by someone else than who pulled it
    readings:
${finalReadings}
    spans:
${finalSpans}

sign-off:                         # dimensions only: not welds, not corrosion protection, not wheel alignment
  by: rk
  date: 2026-02-20
  readings: SEAL
  chassis: SEAL
  judged-by: 0.2
`;
}
