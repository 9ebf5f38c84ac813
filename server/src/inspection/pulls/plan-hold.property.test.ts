import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../geometry/vector';
import type { Axis } from '../../model/chassis';
import { inspectionOf, jobText } from '../../testing/pulled-rail';
import { planEntryLines } from '../../wording/job-plan/plan-lines';
import { holdText } from '../../wording/job-plan/step-hold-words';
import type { Inspection } from '../job/inspect';
import { pullPlan } from './plan';

/** Invented: a body about its control points, and one beam that runs past them on both sides. */

const control: readonly Vec3[] = [
  [700, 420, -60],
  [720, -400, -40],
  [-690, 430, -50],
  [-710, -410, -70],
  [150, 610, 330],
  [-160, -600, 340],
  [40, 180, 610],
  [-60, -150, -540],
];

/** Places of the beam's stations, its middle where no control point's centroid is. */
const stationsMm = [-1300, -900, -500, 0, 500, 900, 1300] as const;

const words = [
  { forward: 1, rearward: -1 },
  { left: 1, right: -1 },
  { up: 1, down: -1 },
] as const;

/** How the car is looked at: as it is, or each axis turned the other way. */
type View = readonly [1 | -1, 1 | -1, 1 | -1];
const views = {
  'as it stands': [1, 1, 1],
  'left and right mirrored': [1, -1, 1],
  'turned end for end': [-1, -1, 1],
  'on its roof': [1, -1, -1],
} as const satisfies Record<string, View>;

const seen = (v: Vec3, view: View): Vec3 => [v[0] * view[0], v[1] * view[1], v[2] * view[2]];
const onAxis = (along: Axis, mm: number, across: readonly [number, number]): Vec3 =>
  along === 0 ? [mm, ...across] : along === 1 ? [across[0], mm, across[1]] : [across[0], across[1], mm];

interface Beam {
  readonly along: Axis;
  /** How much farther up its axis the beam stands than the control points, mm. */
  readonly offsetMm: number;
  /** The shift of each station across the beam, mm, in the order of its axes. */
  readonly shiftsMm: readonly (readonly [number, number])[];
}

const axisWord = (along: Axis): string => ['length', 'width', 'height'][along];
const triple = (v: Vec3): string => `[${v.map((mm) => mm.toFixed(3)).join(', ')}]`;

function inspectionSeen(beam: Beam, view: View): Inspection {
  const points = control.map((at, i) => ({
    name: `control-${i}`,
    at,
    off: [0, 0, 0] as Vec3,
    part: 'floor',
  }));
  stationsMm.forEach((mm, i) => {
    for (const [level, across] of [
      [0, [210, 300]],
      [1, [210, 420]],
    ] as const)
      points.push({
        name: `beam-${i}-${level}`,
        at: onAxis(beam.along, mm + beam.offsetMm, across),
        off: onAxis(beam.along, 0, beam.shiftsMm[i]),
        part: 'beam',
      });
  });
  const chassis = [
    'framewright: chassis/1',
    'vehicle: Teal estate',
    'source: { kind: published, reference: sheet 4 }',
    'build: 0.3',
    `parts: { floor: {}, beam: { along: ${axisWord(beam.along)}, steel: mild, straighten: freely } }`,
    'points:',
    ...points.map(({ name, at, part }) => {
      return `  ${name}: { centre: ${triple(seen(at, view))}, part: ${part}${part === 'floor' ? ', base: true' : ''} }`;
    }),
    '',
  ].join('\n');
  const readings = points.map(({ name, at, off }) => {
    const read = seen([at[0] + off[0], at[1] + off[1], at[2] + off[2]], view);
    return `      ${name}: ${triple(read)}`;
  });
  return inspectionOf(
    chassis,
    jobText([`  - measure: as received\n    readings:\n${readings.join('\n')}\n`]),
  );
}

interface HoldWords {
  readonly mm: number;
  /** +1 where the words point up the axis. */
  readonly towards: number;
}

/** Where the plan's own words say to hold, and which way farther is said to be as good. */
function holdWords(inspection: Inspection, along: Axis): HoldWords[] {
  const plan = pullPlan(inspection, 'beam');
  const line = plan.kind === 'plan' ? holdText([plan], 'mm') : '';
  return [...line.matchAll(/(-?\d+) mm or farther (\w+)/g)].map(([, mm, word]) => ({
    mm: Number(mm),
    towards: (words[along] as Record<string, number>)[word],
  }));
}

const alongs: readonly Axis[] = [0, 1, 2];
const count = stationsMm.length;

/** Hurt from one station to another; each off across the beam by more than any doubt. */
const hurt = fc
  .record({
    first: fc.integer({ min: 0, max: count - 1 }),
    stations: fc.integer({ min: 1, max: count }),
    offsetMm: fc.constantFrom(-180, 0, 240),
    sizes: fc.array(fc.tuple(fc.integer({ min: 8, max: 40 }), fc.boolean(), fc.boolean()), {
      minLength: count,
      maxLength: count,
    }),
  })
  .map(({ first, stations, offsetMm, sizes }) => {
    const last = Math.min(count - 1, first + stations - 1);
    const shiftsMm = sizes.map(([mm, negative, second], i): [number, number] => {
      const size = i < first || i > last ? 0 : negative ? -mm : mm;
      return second ? [0, size] : [size, 0];
    });
    return { first, last, offsetMm, shiftsMm };
  });

/** A lean that grows from a station to the end of the beam: what a single bend looks like. */
const leaning = (end: 'first' | 'last', sizeMm: number): (readonly [number, number])[] => {
  const grow = (i: number) => Math.max(0, (end === 'last' ? i : count - 1 - i) - 3);
  return stationsMm.map((_, i) => [sizeMm * grow(i), 0] as const);
};

/** Every place points away from every hurt station, and farther that way no hurt metal comes. */
function expectAway(holds: readonly HoldWords[], hurtAtMm: readonly number[]): void {
  for (const { mm, towards } of holds)
    for (const at of hurtAtMm) expect(towards * (mm - at)).toBeGreaterThan(0);
}

describe('the hold of a part that runs past the base on both sides', () => {
  for (const along of alongs)
    for (const [name, view] of Object.entries(views))
      it(`points away from the damage, ${axisWord(along)}, ${name}`, () => {
        fc.assert(
          fc.property(hurt, ({ first, last, offsetMm, shiftsMm }) => {
            const inspection = inspectionSeen({ along, offsetMm, shiftsMm }, view);
            expect(pullPlan(inspection, 'beam').kind).toBe('plan');
            const holds = holdWords(inspection, along);
            const hurtAtMm = stationsMm.slice(first, last + 1).map((mm) => view[along] * (mm + offsetMm));
            expectAway(holds, hurtAtMm);
            // straight metal is left at an end of the beam: it is found
            expect(holds.length > 0).toBe(first > 0 || last < count - 1);
            // the entry that goes into the file names the same places
            const entry = planEntryLines(inspection, 'beam').join('\n');
            for (const { mm } of holds) expect(entry).toContain(`at: ${mm} }`);
          }),
          { numRuns: 12 },
        );
      });

  for (const along of alongs)
    for (const end of ['first', 'last'] as const)
      for (const [name, view] of Object.entries(views))
        it(`points away from a lean towards the ${end} end, ${axisWord(along)}, ${name}`, () => {
          for (const sizeMm of [-6, 6]) {
            const inspection = inspectionSeen({ along, offsetMm: 0, shiftsMm: leaning(end, sizeMm) }, view);
            const holds = holdWords(inspection, along);
            expect(holds).toHaveLength(1);
            const hurtAtMm = stationsMm
              .filter((_, i) => leaning(end, sizeMm)[i][0] !== 0)
              .map((mm) => view[along] * mm);
            expectAway(holds, hurtAtMm);
          }
        });

  it('is the same hold, seen the other way round', () => {
    fc.assert(
      fc.property(hurt, fc.constantFrom(...alongs), ({ first, last, shiftsMm }, along) => {
        // all off alike: where a single bend starts is told from one end only
        const same = shiftsMm.map((_, i): [number, number] => (i < first || i > last ? [0, 0] : [14, 0]));
        const holdsIn = (view: View) =>
          holdWords(inspectionSeen({ along, offsetMm: 0, shiftsMm: same }, view), along)
            .map(({ mm, towards }) => ({ mm: view[along] * mm + 0, towards: view[along] * towards }))
            .sort((a, b) => a.mm - b.mm);
        const asIs = holdsIn([1, 1, 1]);
        for (const view of Object.values(views)) expect(holdsIn(view)).toEqual(asIs);
      }),
      { numRuns: 12 },
    );
  });
});
