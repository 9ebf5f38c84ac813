import { header } from '../layout.mjs';
import { bothSides, carInTheShop } from '../session.mjs';

export const path = 'jobs/w-1215-few-control-points.readings.yaml';

const rail = ['root', 'rear', 'middle', 'front', 'tip'].flatMap((name) => [
  `rail-${name}-lower`,
  `rail-${name}-upper`,
]);

/** The job file. */
export function text({ marten }) {
  const car = carInTheShop(marten, 1215);
  const bridge = car.instrument({
    frame: { pitch: -0.3, at: [2180, 3.2, 298] },
    axes: ['forward', 'left', 'up'],
    uncertainty: 0.3,
    repeatability: 0.2,
  });
  const readings = car.readings(bridge, car.sound, [
    '# control points: no more of them could be reached',
    ...bothSides('floor-front', 'floor-rear'),
    '# both rails',
    ...bothSides(...rail),
    '# what nobody has in question helps to align the car',
    ...bothSides('strut-top', 'wing-mount-rear', 'radiator-lower', 'radiator-upper', 'lamp-mount'),
    ...bothSides('sill-front-lower', 'sill-middle-lower', 'sill-rear-lower'),
    ...bothSides('pillar-foot-front', 'pillar-belt-front', 'pillar-top-front'),
    ...bothSides('rear-rail-middle-lower', 'rear-rail-tip-lower', 'rear-panel-lower'),
    ...bothSides('tailgate-hinge', 'tailgate-corner'),
  ]);

  return `framewright: readings/1
${header(
  'The left rail was pulled and is measured at the end. Engine and trim left four control points within reach, two',
  'metres behind the rail tips: by these alone nothing there could be decided. Other points help.',
)}chassis: ../specs/marten-hatch.chassis.yaml
order: W-1215
technician: rk
instrument: { name: measuring bridge, uncertainty: 0.3, repeatability: 0.2 }
conditions: { powertrain: in, suspension: in }
scope: [front-rail]               # so all else may help to align

timeline:
  - measure: finished
    at: 2026-03-13T15:10
    readings:
${readings}
`;
}
