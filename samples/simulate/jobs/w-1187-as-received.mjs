import { bend, damagedBody, isOn, moved } from '../body.mjs';
import { header } from '../layout.mjs';
import { bothSides, carInTheShop, onSide } from '../session.mjs';
import { sum } from '../vector.mjs';

export const path = 'jobs/w-1187-as-received.readings.yaml';

/** Hit at the front left: the rail back, in and up; the support skewed; the right rail pushed out a little. */
const damages = [
  bend({ part: 'front-rail.L', from: 2290, slope: [-0.03, -0.048, 0.012] }),
  bend({ part: 'front-rail.R', from: 2440, slope: [-0.002, -0.018, 0] }),
  (point, position) =>
    isOn(point, 'apron.L') ? sum(position, apronMove(Math.max(0, point.reference[0] - 2030))) : position,
  moved('radiator-support', ({ reference }) => [-13 - reference[1] * 0.019, -15, 3]),
];

const apronMove = (past) => [-0.03 * past, -0.036 * past, 0.006 * past];

/** The job file. */
export function text({ marten }) {
  const car = carInTheShop(marten, 1187);
  const body = damagedBody(car.sound, damages);
  const arm = car.instrument({
    frame: { yaw: 2.3, pitch: -0.6, roll: 0.4, at: [412.5, -96.2, 604.8] },
    uncertainty: 0.4,
    repeatability: 0.25,
    spanUncertainty: 1,
  });
  const readings = car.readings(arm, body, [
    '# control points',
    ...bothSides('floor-front').map((id) => ({ id, repeats: 2 })),
    ...bothSides('floor-rear', 'tunnel-front', 'rear-floor'),
    ...bothSides('cowl-hole').map((id) => ({ id, repeats: 2 })),
    ...bothSides('sill-hole-front', 'sill-hole-rear', 'rear-rail-root-lower'),
    '# left rail, root to tip, lower and upper',
    ...onSide('L', 'rail-root-lower', 'rail-root-upper', 'rail-rear-lower', 'rail-rear-upper'),
    ...onSide('L', 'rail-middle-lower', 'rail-middle-upper', 'rail-front-lower', 'rail-front-upper'),
    { id: 'rail-tip-lower.L', repeats: 3 },
    { id: 'rail-tip-upper.L', repeats: 2, remark: 'stud bent, took the root of it' },
    '# right rail: looks straight, is not',
    ...onSide('R', 'rail-root-lower', 'rail-root-upper', 'rail-rear-lower', 'rail-rear-upper'),
    ...onSide('R', 'rail-middle-lower', 'rail-middle-upper', 'rail-front-lower', 'rail-front-upper'),
    { id: 'rail-tip-lower.R', repeats: 2 },
    'rail-tip-upper.R',
    '# aprons and support',
    ...bothSides('strut-top').map((id) => ({ id, repeats: 2 })),
    ...bothSides('strut-flange', 'wing-mount-rear'),
    '# framewright-ignore reading/outside: the bracket comes with the new wing',
    'wing-mount-front.L',
    'wing-mount-front.R',
    'latch',
    ...bothSides('radiator-lower', 'radiator-upper'),
    { id: 'lamp-mount.L', raw: 'unreachable', remark: 'bumper beam folded over it' },
    'lamp-mount.R',
    '# sills and pillars, to be sure that the knock stopped at the cowl',
    ...bothSides('sill-front-lower', 'sill-front-upper', 'sill-middle-lower', 'sill-middle-upper'),
    ...bothSides('sill-rear-lower', 'sill-rear-upper', 'pillar-foot-front', 'pillar-foot-rear'),
    ...bothSides('pillar-hinge-front', 'pillar-hinge-rear', 'pillar-belt-front', 'pillar-belt-rear'),
    ...bothSides('pillar-top-front', 'pillar-top-rear'),
    '# the tail',
    ...bothSides('rear-rail-root-upper', 'rear-rail-middle-lower', 'rear-rail-middle-upper'),
    ...bothSides('rear-rail-tip-lower', 'rear-rail-tip-upper', 'rear-panel-lower'),
    ...bothSides('tailgate-hinge', 'tailgate-corner', 'tailgate-buffer'),
  ]);
  const spans = car.spans(arm, body, [
    ['rail-tip-lower.L', 'strut-top.R'],
    ['rail-tip-lower.R', 'strut-top.L'],
    ['rail-tip-lower.L', 'rail-tip-lower.R', 'bumper beam off'],
    ['cowl-hole.L', 'strut-top.R', 'cowl to strut is still the sheet'],
  ]);

  return `framewright: readings/1
${header('Front left hit, as it came off the truck. Nothing pulled yet: this is the picture to plan from.')}chassis: ../specs/marten-hatch.chassis.yaml
order: W-1187
technician: jm
instrument: { name: bench arm 2, uncertainty: 0.4, repeatability: 0.25, span-uncertainty: 1.0 }
axes: [forward, left, up]         # the arm's own axes; it stands where it stands, not square to the car
base: auto
conditions: { powertrain: in, suspension: in }

timeline:
  - note: airbags fired, battery off and locked out before anyone went near it
  - measure: as received
    at: 2026-03-02T09:10
    note: on the lift, wheels hanging, not clamped
    readings:
${readings}
    spans:                        # tram gauge, to check the arm against something else
${spans}
  - observe: buckle
    part: apron.L
    at: 2480                      # in the panel ahead of the strut, paint cracked
  - observe: gap
    part: apron.L
    note: spot welds to the rail pulled open ahead of the strut
  - note: bonnet shut line 5 wider on the right than on the left
`;
}
