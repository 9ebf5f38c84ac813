import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rotationFromAngles } from '../../geometry/euler';
import { add, transformed, type Vec3 } from '../../geometry/vector';
import { carChassis, inspectionOf } from '../../testing/car';
import { summaryLines } from '../../wording/summaries';
import type { Inspection } from './inspect';

/** Facts about a whole inspection that hold whatever was measured. */

const references: Record<string, Vec3> = {
  'floor-front.L': [1200, 420, 95],
  'floor-front.R': [1200, -420, 95],
  'floor-rear.L': [-350, 455, 90],
  'floor-rear.R': [-350, -455, 90],
  'tunnel-front.L': [905, 188, 242],
  'tunnel-front.R': [905, -188, 242],
  'cowl-hole.L': [1480, 612, 905],
  'cowl-hole.R': [1480, -612, 905],
  'rail-root-lower.L': [1760, 441, 188],
  'rail-root-upper.L': [1760, 445, 328],
  'rail-tip-lower.L': [3012, 448, 210],
  'rail-tip-upper.L': [3012, 452, 352],
  'rail-tip-lower.R': [3012, -448, 210],
  'rail-tip-upper.R': [3012, -452, 352],
  'strut-top.L': [2250, 561, 830],
};
const ids = Object.keys(references);
type Readings = Readonly<Record<string, Vec3>>;

/** Damage: control points scatter by tenths, and now and then one has moved; the rest by up to some 30 mm. */
const readings: fc.Arbitrary<Readings> = fc
  .tuple(
    fc.array(fc.tuple(...([0, 1, 2] as const).map(() => fc.integer({ min: -100, max: 100 }))), {
      minLength: ids.length,
      maxLength: ids.length,
    }),
    fc.option(fc.constantFrom('floor-rear.R', 'cowl-hole.L'), { nil: null }),
  )
  .map(([shifts, moved]) =>
    Object.fromEntries(
      ids.map((id, i) => {
        const scale = i < 8 && id !== moved ? 0.004 : 0.3;
        const [x, y, z] = shifts[i];
        return [id, add(references[id], [x * scale, y * scale, z * scale])];
      }),
    ),
  );

const textOf = (measured: Readings, { unit = 'mm', order = ids, axes = '' } = {}) => {
  const per = unit === 'mm' ? 1 : 25.4;
  const rows = order.map(
    (id) => `      ${id}: [${measured[id].map((x) => (x / per).toPrecision(17)).join(', ')}]`,
  );
  return `framewright: readings/1
units: ${unit}
chassis: car.chassis.yaml
instrument: { uncertainty: ${0.3 / per} }
${axes}
timeline:
  - measure: as received
    readings:
${rows.join('\n')}
`;
};

const moved = (measured: Readings, motion: (position: Vec3) => Vec3): Readings =>
  Object.fromEntries(Object.entries(measured).map(([id, position]) => [id, motion(position)]));

/** Deviations, uncertainties and verdicts by point. */
const judgements = (inspection: Inspection) =>
  new Map(inspection.stages[0].points.map((point) => [point.id, point] as const));

function expectAlike(a: Inspection, b: Inspection): void {
  const [first, second] = [judgements(a), judgements(b)];
  expect([...second.keys()].sort()).toEqual([...first.keys()].sort());
  expect(b.stages[0].alignment!.movedIds).toEqual(a.stages[0].alignment!.movedIds);
  for (const [id, point] of first) {
    const other = second.get(id)!;
    expect(other.verdict).toBe(point.verdict);
    point.deviation.forEach((d, k) => {
      expect(other.deviation[k]).toBeCloseTo(d!, 6);
      expect(other.uncertainty[k]).toBeCloseTo(point.uncertainty[k]!, 6);
    });
  }
}

const runs = { numRuns: 25 };

describe('an inspection', () => {
  it('does not change when all readings are moved as one body', () => {
    const angle = fc.double({ min: -3, max: 3, noNaN: true });
    const offset = fc.double({ min: -5000, max: 5000, noNaN: true });
    fc.assert(
      fc.property(
        readings,
        fc.tuple(angle, angle, angle),
        fc.tuple(offset, offset, offset),
        (measured, [yaw, pitch, twist], shift) => {
          const rotation = rotationFromAngles({ yaw, pitch: pitch / 2, twist });
          const turned = moved(measured, (position) => add(transformed(rotation, position), shift));
          expectAlike(inspectionOf(textOf(measured)), inspectionOf(textOf(turned)));
        },
      ),
      runs,
    );
  });

  it('does not depend on the order of the points, summaries included', () => {
    fc.assert(
      fc.property(readings, fc.shuffledSubarray(ids, { minLength: ids.length }), (measured, order) => {
        const [a, b] = [inspectionOf(textOf(measured)), inspectionOf(textOf(measured, { order }))];
        expectAlike(a, b);
        expect(summaryLines(b, b.stages[0])).toEqual(summaryLines(a, a.stages[0]));
      }),
      runs,
    );
  });

  it('agrees between mm and inches', () => {
    fc.assert(
      fc.property(readings, (measured) => {
        expectAlike(inspectionOf(textOf(measured)), inspectionOf(textOf(measured, { unit: 'inch' })));
      }),
      runs,
    );
  });

  it('agrees between instruments that count their numbers in other orders and directions', () => {
    fc.assert(
      fc.property(readings, (measured) => {
        const other = moved(measured, ([x, y, z]) => [-z, -y, x]);
        expectAlike(
          inspectionOf(textOf(measured)),
          inspectionOf(textOf(other, { axes: 'axes: [down, right, forward]' })),
        );
      }),
      runs,
    );
  });

  it('agrees with an instrument that counts its second number outboard', () => {
    fc.assert(
      fc.property(readings, (measured) => {
        const outboard = Object.fromEntries(
          Object.entries(measured).map(([id, [x, y, z]]) => [id, [x, id.endsWith('.R') ? -y : y, z] as Vec3]),
        );
        expectAlike(
          inspectionOf(textOf(measured)),
          inspectionOf(textOf(outboard, { axes: 'axes: [forward, outboard, up]' })),
        );
      }),
      runs,
    );
  });

  it('agrees between left and right: a car hit on the other side has the other side’s figures', () => {
    const otherSide = (id: string) => id.replace(/\.[LR]$/, (side) => (side === '.L' ? '.R' : '.L'));
    fc.assert(
      fc.property(readings, (measured) => {
        const mirrored = Object.fromEntries(
          Object.entries(measured).map(([id, [x, y, z]]) => [otherSide(id), [x, -y, z] as Vec3]),
        );
        const a = inspectionOf(textOf(measured));
        const b = inspectionOf(textOf(mirrored, { order: ids.map(otherSide) }));
        const second = judgements(b);
        for (const point of a.stages[0].points) {
          const other = second.get(otherSide(point.id))!;
          expect(other.verdict).toBe(point.verdict);
          [1, -1, 1].forEach((sign, k) => {
            expect(sign * other.deviation[k]!).toBeCloseTo(point.deviation[k]!, 6);
            expect(other.uncertainty[k]).toBeCloseTo(point.uncertainty[k]!, 6);
          });
        }
        for (const part of a.stages[0].parts.filter((each) => each.part.side !== null)) {
          const other = b.stages[0].parts.find((each) => each.part.id === otherSide(part.part.id))!;
          part.stations.forEach((station, i) => {
            const twist = other.stations[i].twist;
            expect(twist === null).toBe(station.twist === null);
            if (station.twist && twist) expect(-twist.angleRad).toBeCloseTo(station.twist.angleRad, 8);
          });
        }
      }),
      runs,
    );
  });

  it('is made on the chassis that the properties name', () => {
    for (const [id, reference] of Object.entries(references))
      expect(inspectionOf(textOf(references), carChassis).chassis.points.get(id)?.reference).toEqual(
        reference,
      );
  });
});
