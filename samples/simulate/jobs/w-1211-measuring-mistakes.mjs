import { bend, damagedBody } from '../body.mjs';
import { header } from '../layout.mjs';
import { bothSides, carInTheShop, onSide } from '../session.mjs';

export const path = 'jobs/w-1211-measuring-mistakes.readings.yaml';

const damages = [bend({ part: 'front-rail.R', from: 2300, slope: [-0.015, 0.03, 0] })];

const control = bothSides(
  ...['floor-front', 'floor-rear', 'tunnel-front', 'rear-floor', 'cowl-hole'],
  ...['sill-hole-front', 'sill-hole-rear', 'rear-rail-root-lower'],
);
const front = [...bothSides('rail-root-lower', 'rail-middle-lower', 'rail-tip-lower', 'strut-top'), 'latch'];

const otherSide = (id) => id.replace(/[LR]$/, (side) => (side === 'L' ? 'R' : 'L'));
const swapFirstDigits = ([length, ...rest]) => [Number(String(length).replace(/^(\d)(\d)/, '$2$1')), ...rest];
const dropSign = ([length, width, height]) => [length, Math.abs(width), height];
const inInches = (numbers) => numbers.map((value) => (value / 25.4).toFixed(2));

/** The job file. */
export function text({ marten }) {
  const car = carInTheShop(marten, 1211);
  const body = damagedBody(car.sound, damages);
  const arm = car.instrument({
    frame: { yaw: 0.08, pitch: 0.03, roll: -0.05, at: [1.4, -0.7, 0.9] },
    uncertainty: 0.5,
    repeatability: 0.3,
  });
  const rounded = ([length, ...rest]) => [Math.round(length * 10) / 10, ...rest];
  let repeat = 0;
  const received = car.readings(arm, body, [
    '# control points',
    ...control,
    '# left rail',
    ...onSide('L', 'rail-root-lower', 'rail-root-upper', 'rail-rear-lower'),
    { id: 'rail-rear-upper.L', of: 'rail-front-upper.L', remark: 'two holes further on than the list said' },
    ...onSide('L', 'rail-middle-lower', 'rail-middle-upper'),
    {
      id: 'rail-front-lower.L',
      repeats: 2,
      change: (numbers) => [numbers[0], numbers[1], numbers[2] + 7.6 * repeat++],
      remark: 'the second time the tip had slipped off the edge',
    },
    ...onSide('L', 'rail-front-upper', 'rail-tip-lower', 'rail-tip-upper'),
    '# right rail',
    ...onSide(
      'R',
      'rail-root-lower',
      'rail-root-upper',
      'rail-rear-lower',
      'rail-rear-upper',
      'rail-middle-lower',
    ),
    {
      id: 'rail-middle-upper.R',
      change: (numbers) => swapFirstDigits(rounded(numbers)),
      remark: 'first two digits the wrong way round',
    },
    ...onSide('R', 'rail-front-lower', 'rail-front-upper', 'rail-tip-lower', 'rail-tip-upper'),
    '# aprons',
    { id: 'strut-top.L', of: 'strut-top.R', remark: 'stood in front of the car: my left, not its left' },
    { id: 'strut-top.R', of: 'strut-top.L', remark: 'and so the other one too' },
    'wing-mount-rear.L',
    { id: 'wing-mount-rear.R', change: dropSign, remark: 'the minus was left out' },
    '# lock',
    { id: 'latch', change: ([length, ...rest]) => [length - 800, ...rest], remark: '22.. typed for 30..' },
  ]);
  const swapped = car.readings(
    arm,
    body,
    [...control, ...front].map((id) => ({ id, of: otherSide(id) })),
  );
  const inches = car.readings(
    arm,
    body,
    [...control, ...front].map((id) => ({ id, write: inInches })),
  );

  return `framewright: readings/1
${header(
  'Spelt right and measured wrong: sides swapped, a sign lost, digits turned round, the wrong hole, a slipped tip,',
  'a whole set left for right and a whole set in inches. Meant to be wrong; each slip has its remark.',
)}chassis: ../specs/marten-hatch.chassis.yaml
order: W-1211
technician: the new man
instrument: { name: borrowed arm }                # nobody knows how good it is
base: auto
conditions: { powertrain: in, suspension: in }
scope: [front-rail, apron]

timeline:
  - measure: as received
    at: 2026-03-11T10:00
    readings:
${received}
  - measure: again, from the front
    at: 2026-03-11T13:15
    note: worked from the front bumper looking back, so every left is a right
    readings:
${swapped}
  - measure: again, arm back from service
    at: 2026-03-13T09:40
    note: the service people left the read-out in inches, and nobody looked
    readings:
${inches}
`;
}
