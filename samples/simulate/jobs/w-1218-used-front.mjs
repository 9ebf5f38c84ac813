import { chassisPoints, damagedBody, moved } from '../body.mjs';
import { header } from '../layout.mjs';
import { bothSides, carInTheShop } from '../session.mjs';
import { entries } from '../specs/teal-estate.mjs';

export const path = 'jobs/w-1218-used-front.readings.yaml';

/** Points that the body has and its file does not: where they truly are. */
const unlisted = [
  { name: 'front-rail-brace', both: [2540, 431, 262], part: 'front-rail' },
  { name: 'radiator-support-stay', both: [3018, 244, 748], part: 'radiator-support' },
  { name: 'apron-ledge', both: [2410, 634, 776], part: 'apron' },
];

/** It was knocked when it was taken off the car. */
const damages = [moved('apron.R', () => [-1.5, 7, 2])];

/** The job file. */
export function text() {
  const car = carInTheShop(chassisPoints([...entries, ...unlisted]), 1218);
  const arm = car.instrument({
    frame: { yaw: -2.6, pitch: 0.4, roll: -0.7, at: [-340, 180, 455] },
    uncertainty: 0.3,
    repeatability: 0.2,
  });
  const twice = (...names) => bothSides(...names).map((id) => ({ id, repeats: 2 }));
  const readings = car.readings(arm, damagedBody(car.sound, damages), [
    '# control points',
    ...bothSides('floor-front', 'tunnel-front', 'cowl-hole', 'sill-hole-front'),
    '# what the sheet has, to see that the metal is sound',
    ...bothSides('rail-root-lower', 'rail-middle-lower', 'rail-middle-upper', 'rail-tip-lower', 'strut-top'),
    ...bothSides('strut-flange', 'wing-mount-front', 'radiator-lower', 'radiator-upper'),
    'latch',
    '# what it has not: there is no such point until references are made of these, twice read',
    ...twice('front-rail-brace', 'radiator-support-stay', 'apron-ledge'),
  ]);

  return `framewright: readings/1
${header(
  'A used front of a Teal, cut off behind the cowl and bought for its rails; measured before anybody touched it, for',
  'points that the sheet does not have. Its right apron was knocked on the way, which nobody had said.',
)}chassis: ../specs/teal-estate.chassis.yaml
order: W-1218
technician: ab
instrument: { name: bench arm 2, uncertainty: 0.3, repeatability: 0.2 }
base: auto
conditions: { powertrain: out, suspension: out }

timeline:
  - measure: used front
    at: 2026-03-18T10:10
    readings:
${readings}
`;
}
