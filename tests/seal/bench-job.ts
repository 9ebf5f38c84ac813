/** A body and a signed job in which every key of the language stands, as plain values, for the tests of the seals. */

const at = (x: number, y: number, z: number): number[] => [x, y, z];

export const parent = {
  framewright: 'chassis/1',
  vehicle: 'Marten',
  points: {
    'floor-front': { both: at(1180, 430, 92), base: true },
    'floor-rear': { both: at(-360, 461, 90), base: true },
  },
  spans: [{ from: 'floor-front.L', to: 'floor-rear.R', distance: 1778.2 }],
};

export const body = {
  framewright: 'chassis/1',
  vehicle: 'Marten, tow package',
  extends: 'base.chassis.yaml',
  units: 'mm',
  source: { kind: 'donor', reference: 'order W-0988', date: '2025-11-20', uncertainty: 0.4 },
  conditions: { powertrain: 'in' },
  datum: { length: 'front holes', width: 'half-way', height: 'sill flange' },
  build: 0.6,
  'build-elsewhere': 1.2,
  tolerance: { length: 4, width: [-2, 4], height: 4 },
  parts: {
    floor: { steel: 'mild', straighten: 'freely' },
    rail: {
      sided: true,
      along: 'length',
      steel: 'high-strength',
      straighten: 'minor',
      section: [2450, 2700],
      heat: { to: '200 C', for: '90 s' },
      attached: ['welded', 'bonded'],
      reference: 'manual 31',
    },
    cover: { attached: 'bolted' },
  },
  points: {
    'rail-root': { both: at(1745, 438, 190), part: 'rail' },
    'rail-tip': {
      left: at(3005, 446, 212),
      right: at(3005, 448, 212),
      part: 'rail',
      base: false,
      tolerance: { length: 2 },
      fixing: 'bolt',
      uncertainty: 0.3,
      source: { kind: 'mirrored', uncertainty: 0.2 },
    },
    latch: {
      centre: at(3046, 10, 782),
      source: { kind: 'donor', reference: 'order W-1', date: '2025-11-20', uncertainty: 0.7 },
    },
  },
  spans: [
    { from: 'rail-tip', to: 'rail-root', distance: 1401, tolerance: [-2, 3], level: false, pairs: 'crossed' },
    { from: 'rail-tip.L', to: 'latch', distance: 800, tolerance: 3 },
  ],
};

export const job = {
  framewright: 'readings/1',
  chassis: 'body.chassis.yaml',
  order: 'W-9',
  technician: 'jm',
  units: 'mm',
  instrument: {
    name: 'arm 1',
    serial: 'A-1',
    calibrated: '2026-01-12',
    uncertainty: 0.3,
    repeatability: 0.1,
    'span-uncertainty': 0.5,
  },
  axes: ['forward', 'left', 'down'],
  base: ['floor-front.L', 'floor-front.R', 'floor-rear.L', 'floor-rear.R'],
  conditions: { powertrain: 'in' },
  anchors: ['floor-front'],
  scope: ['rail'],
  timeline: [
    {
      measure: 'as received',
      by: 'rk',
      at: '2026-03-02T09:10',
      instrument: { name: 'arm 2', uncertainty: 0.4 },
      conditions: { suspension: 'out' },
      'set-up': 'new',
      readings: {
        'rail-tip.L': [
          [2985.4, 489.8, 522.2],
          [2985.5, 489.8, 522.2],
        ],
        'rail-root.L': at(1726.9, 471.6, 500.3),
        latch: 'unreachable',
        'rail-tip.R': 'as-before',
      },
      spans: [
        ['rail-tip.L', 'rail-root.R', 1400.3],
        ['latch', 'rail-tip.L', 801],
        ['rail-tip.L', 'floor-rear.L', [3300, 3300.2]],
      ],
      summary: { twist: 'none' },
      note: 'wheel off',
    },
    {
      observe: 'buckle',
      part: 'rail.L',
      at: 2210,
      answered: { by: 'rk', date: '2026-03-04', how: 'dressed' },
      note: 'small',
    },
    {
      pull: 'out',
      part: 'rail.L',
      chains: [{ hook: 'rail-tip.L', direction: [1, 0, 0], force: '18 kN' }],
      hold: 'floor-rear',
      plan: 'none',
      note: 'slow',
    },
    {
      pull: 'more',
      hook: 'rail-tip.L',
      direction: [1, 0.5, 0],
      force: '9 kN',
      hold: [{ part: 'rail.L', at: 1800 }],
    },
    { relieve: 'rail.L', note: 'a' },
    { release: 'all', note: 'b' },
    { section: 'rail.R', at: 2500, beyond: 'high', note: 'c' },
    { replace: 'cover', note: 'd' },
    { join: 'rail.R', with: 'welded', to: ['floor'], note: 'e' },
    { heat: 'rail.L', to: '180 C', for: '60 s', note: 'f' },
    { note: 'waiting' },
  ],
  'sign-off': {
    by: 'rk',
    date: '2026-03-05',
    readings: 'seal1-0000000000000000',
    chassis: 'seal1-0000000000000000',
    'judged-by': 0.2,
    accepted: [{ point: 'latch', reason: 'slotted' }],
    earlier: [{ by: 'rk', date: '2026-03-04', chassis: 'sha256-3f9a61c2' }],
  },
};
