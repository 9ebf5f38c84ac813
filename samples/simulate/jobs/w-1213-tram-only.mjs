import { bend, damagedBody, isOn, moved } from '../body.mjs';
import { header } from '../layout.mjs';
import { carInTheShop } from '../session.mjs';
import { sum } from '../vector.mjs';

export const path = 'jobs/w-1213-tram-only.readings.yaml';

const damages = [
  bend({ part: 'front-rail.L', from: 2300, slope: [-0.012, -0.024, 0.004] }),
  (point, position) => (isOn(point, 'apron.L') ? sum(position, [-1.2, -1.6, 0.4]) : position),
  moved('radiator-support', () => [-6, -9, 1]),
];

const ids = (from, ...to) => to.map((id) => [id, from]);

/** The job file. */
export function text({ marten }) {
  const car = carInTheShop(marten, 1213);
  const tram = car.instrument({ frame: { at: [0, 0, 0] }, uncertainty: 0.5, spanUncertainty: 0.9 });
  const spans = car.spans(tram, damagedBody(car.sound, damages), [
    ...ids(
      'rail-tip-lower.L',
      'floor-front.L',
      'floor-front.R',
      'cowl-hole.L',
      'cowl-hole.R',
      'tunnel-front.R',
    ),
    ...ids(
      'rail-tip-lower.R',
      'floor-front.L',
      'floor-front.R',
      'cowl-hole.L',
      'cowl-hole.R',
      'tunnel-front.L',
    ),
    ...ids(
      'strut-top.L',
      'floor-front.L',
      'floor-front.R',
      'cowl-hole.L',
      'cowl-hole.R',
      'sill-hole-front.L',
    ),
    ...ids(
      'strut-top.R',
      'floor-front.L',
      'floor-front.R',
      'cowl-hole.L',
      'cowl-hole.R',
      'sill-hole-front.R',
    ),
    ...ids('latch', 'floor-front.L', 'floor-front.R', 'cowl-hole.L', 'cowl-hole.R'),
    ['rail-tip-lower.L', 'strut-top.R', 'the crosses'],
    ['rail-tip-lower.R', 'strut-top.L'],
    ['rail-tip-lower.L', 'rail-tip-lower.R'],
    ['strut-top.L', 'strut-top.R'],
  ]);

  return `framewright: readings/1
${header('No bench, no arm: a tram gauge, a tape and patience. Most distances start at a hole that cannot have moved.')}chassis: ../specs/marten-hatch.chassis.yaml
order: W-1213
technician: pl
instrument: { name: tram gauge, uncertainty: 0.8, span-uncertainty: 1.2 }    # the gauge and the holes' own scatter
conditions: { powertrain: in, suspension: in }

timeline:
  - measure: with the tram
    at: 2026-03-12T16:20
    spans:
${spans}
`;
}
