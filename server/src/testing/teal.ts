/** The Teal of the tests, in which everything agrees: rail-tip to strut-top is 400 × 300 in plan (500) and 400 × 300 × 1200 in space (1300). */
export const teal = `framewright: chassis/1
vehicle: Teal estate
source: { kind: published }
parts:
  floor: {}
  front-rail: { sided: true }
points:
  floor-rear: { both: [-350, 455, 90], part: floor, base: true }
  floor-front: { both: [1200, 420, 95], part: floor, base: true }
  rail-root-lower: { both: [1760, 400, 188], part: front-rail }
  rail-root-upper: { both: [1760, 400, 322], part: front-rail }
  rail-tip: { both: [2600, 400, 200], part: front-rail }
  strut-top: { both: [2200, 700, 1400] }
  latch: { centre: [2700, 12, 780] }
spans:
  - { from: rail-tip, to: strut-top, distance: 1300, pairs: straight }
  - { from: rail-tip.L, to: strut-top.L, distance: 1301 }
`;
