import { bend, damagedBody } from '../body.mjs';
import { header, oneDecimal } from '../layout.mjs';
import { bothSides, carInTheShop, onSide } from '../session.mjs';

export const path = 'jobs/w-1210-typing-mistakes.readings.yaml';

const damages = [bend({ part: 'front-rail.L', from: 2300, slope: [-0.02, -0.03, 0] })];

const withCommas = (numbers) => `[${numbers.map((value) => oneDecimal(value).replace('.', ',')).join(', ')}]`;
const withThousands = ([length, ...rest]) =>
  `[${[oneDecimal(length).replace(/^(-?\d)(\d{3}\.)/, '$1,$2'), ...rest.map(oneDecimal)].join(', ')}]`;
const onlyTwo = (numbers) => `[${numbers.slice(0, 2).map(oneDecimal).join(', ')}]`;
const onlyOne = ([length]) => oneDecimal(length);
const bracketLeftOpen = (numbers) => `[${numbers.map(oneDecimal).join(', ')}`;

/** The job file. */
export function text({ marten }) {
  const car = carInTheShop(marten, 1210);
  const body = damagedBody(car.sound, damages);
  const arm = car.instrument({
    frame: { yaw: 1.1, pitch: 0.2, roll: -0.3, at: [240.4, 61.7, 388.2] },
    uncertainty: 0.4,
    repeatability: 0.25,
  });
  const received = car.readings(arm, body, [
    '# control points',
    { id: 'floor-front.L', spoil: withCommas, remark: 'decimal commas: six numbers where three belong' },
    'floor-front.R',
    ...bothSides('floor-rear', 'tunnel-front', 'rear-floor'),
    { id: 'floor-rear.L', remark: 'read again and typed again: the line above with this name counts' },
    'cowl-hole.L',
    { id: 'cowl-hole.R', spoil: withThousands, remark: 'a comma for the thousands' },
    ...bothSides('sill-hole-front', 'sill-hole-rear', 'rear-rail-root-lower'),
    '# left rail',
    ...onSide('L', 'rail-root-lower', 'rail-root-upper', 'rail-rear-lower', 'rail-rear-upper'),
    { id: 'rail-middle-lower.L', spoil: onlyOne, remark: 'wrote down the length alone' },
    ...onSide('L', 'rail-middle-upper', 'rail-front-lower', 'rail-front-upper'),
    { id: 'rail-tip-lowr.L', of: 'rail-tip-lower.L', remark: 'a letter dropped: no such point' },
    'rail-tip-upper.L',
    '# right rail',
    { id: 'rail-root-lower.R', spoil: onlyTwo, remark: 'the height is missing' },
    ...onSide('R', 'rail-root-upper', 'rail-middle-lower', 'rail-middle-upper'),
    { id: 'rail-front-lower.R', raw: 'unreachble', remark: 'unreachable, with a letter short' },
    ...onSide('R', 'rail-front-upper', 'rail-tip-lower', 'rail-tip-upper'),
    '# aprons and lock',
    { id: 'strut-top', of: 'strut-top.L', remark: 'left or right? There are two of them' },
    'strut-top.R',
    { id: 'latch.L', of: 'latch', remark: 'there is one latch, in the middle' },
  ]);
  const after = car.readings(arm, body, onSide('L', 'rail-tip-lower', 'rail-tip-upper'));
  const secondLook = car.readings(arm, body, [
    ...bothSides('floor-front', 'floor-rear', 'tunnel-front', 'sill-hole-front'),
    'strut-top.L',
    { id: 'strut-top.R', spoil: bracketLeftOpen, remark: 'the bracket was never closed' },
  ]);

  return `framewright: readings/1
${header(
  'Every slip of the keyboard that this shop has seen, in one job, each with its remark. This file is meant to be',
  'wrong: it shows what the program says and where. The sheet it names is right.',
)}chassis: ../specs/marten-hatch.chassis.yaml
order: W-1210
techncian: ab                     # key misspelt
instrument:
  name: bench arm 2
  uncertainty: good               # a word where a number belongs
  repeatability: 0.25
base: auto
conditions: { powertrain: in, suspension: in }
anchors: [floor-frnt, floor-rear] # point misspelt
scope: [front-rail.L, front-rial.R]               # part misspelt

timeline:
  - measure: as received
    at: 2026-03-11T08:30
    readings:
${received}
  - observe: buckel               # the word is buckle
    part: aprn.L                  # part misspelt
    at: 2480
  - pull: left rail out
    part: front-rail.L
    chains:
      - { hook: rail-tip-lower.L, direction: [0.2, 1], force: 18 kN }    # up or down? Three numbers make a direction
    hold: [{ part: front-rail.L, at: 2060 }]
  - relieve: [front-rail.L]
  - releese: all                  # a kind of entry that there is not
  - measure: after first pull
    readngs:                      # key misspelt, so nothing below it was read
${after}
  - measure: second look
    readings:
${secondLook}
  - note: the entries after an open bracket are still read
`;
}
