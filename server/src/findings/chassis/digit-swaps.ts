import type { Vec3 } from '../../geometry/vector';
import { withDigitsSwapped } from '../../inspection/job/digit-slips';
import { type Axis, axes, type Chassis, type Point, type Span } from '../../model/chassis';
import type { TypedNumber } from '../../model/typed-numbers';
import { figure, mmPer } from '../../model/units';
import { offsetsOf } from '../../text/tree';
import { axisNames } from '../../wording/wording';
import { disagreeingDistances, type ListedDistance, spanLengthMm } from './listed-distance';

/** Two neighbouring digits of a coordinate or a listed distance, exchanged, that would settle something. */
export interface DigitSwap {
  /** Swaps that settle the same thing share it. */
  readonly cause: string;
  /** Which number that is, in words. */
  readonly what: string;
  readonly number: TypedNumber;
  /** The number with its digits exchanged. */
  readonly text: string;
  /** In words, for a file of a unit of so many millimetres. */
  readonly settles: (mm: number) => string;
}

/** How near a swap must bring a listed distance to count as its explanation, mm. */
const settledMm = 1;

const outward = (point: Point): number => (point.side === 'R' ? -1 : 1);

const inFileSigns = (point: Point): Vec3 => [
  point.reference[0],
  outward(point) * point.reference[1],
  point.reference[2],
];

/** Every position that a point would have with two neighbouring digits of one of its numbers exchanged, in the signs of the file, mm. */
function swapsOf(
  chassis: Chassis,
  point: Point,
): { axis: Axis; number: TypedNumber; text: string; position: Vec3 }[] {
  // a parent's digits are told of in its own file
  const numbers = point.coordinates.uri === chassis.uri ? point.coordinates.typed : null;
  return axes.flatMap((axis) =>
    numbers === null
      ? []
      : withDigitsSwapped(numbers[axis].source).flatMap((text) => {
          if (text === undefined) return [];
          const position: [number, number, number] = [...inFileSigns(point)];
          position[axis] = Number(text) * mmPer[chassis.unit];
          return [{ axis, number: numbers[axis], text, position }];
        }),
  );
}

/** Where left and right of a point are given apart and differ, what would make them agree. */
export function swapsOfPairs(chassis: Chassis): DigitSwap[] {
  return [...chassis.points.values()].flatMap((left) => {
    const right = left.side === 'L' ? chassis.points.get(`${left.name}.R`) : undefined;
    if (right === undefined || offsetOf(left) === offsetOf(right)) return [];
    const agrees = (a: Vec3, b: Vec3) =>
      axes.every((k) => Math.abs(a[k] - b[k]) <= Math.max(-left.limits[k][0], left.limits[k][1]) + 1e-6);
    if (agrees(inFileSigns(left), inFileSigns(right))) return [];
    return [left, right].flatMap((point, i) => {
      const other = inFileSigns(i === 0 ? right : left);
      return swapsOf(chassis, point)
        .filter(({ position }) => agrees(position, other))
        .map(({ axis, number, text }) => ({
          cause: `sides of ${point.name}`,
          what: `${axisNames[axis]} of ${point.id}`,
          number,
          text,
          settles: () => `make left and right of ${point.name} agree`,
        }));
    });
  });
}

/** Where a listed distance disagrees with its positions, what would settle it: the distance itself first. */
export function swapsOfSpans(chassis: Chassis): DigitSwap[] {
  return disagreeingDistances(chassis).flatMap((listed) => [
    ...swapsOfDistance(chassis, listed),
    ...swapsOfEnds(chassis, listed),
  ]);
}

/** A distance of a pair stands for two spans: it must fit both. */
function swapsOfDistance(chassis: Chassis, { span, fromPositionsMm }: ListedDistance): DigitSwap[] {
  const mm = mmPer[chassis.unit];
  const number = span.typedDistance;
  if (number === null) return [];
  const sameLine = chassis.spans.filter(({ typedDistance }) => typedDistance === number);
  return withDigitsSwapped(number.source).flatMap((text): DigitSwap[] => {
    if (text === undefined || Math.abs(Number(text) * mm - fromPositionsMm) > settledMm) return [];
    if (!sameLine.every((each) => fits(chassis, each, Number(text) * mm))) return [];
    return [
      {
        cause: causeOf(span),
        what: 'the listed distance',
        number,
        text,
        settles: () => `make ${span.from} to ${span.to} agree with the positions of its ends`,
      },
    ];
  });
}

const causeOf = ({ origin: { place } }: Span): string => `span at ${place.block.start + place.start}`;

/** Whether the positions of both ends are so far apart, within the limits of the span. */
function fits({ points }: Chassis, span: Span, distanceMm: number): boolean {
  const off =
    spanLengthMm(span, points.get(span.from)!.reference, points.get(span.to)!.reference) - distanceMm;
  return off >= span.limits[0] - settledMm && off <= span.limits[1] + settledMm;
}

function swapsOfEnds(chassis: Chassis, { span }: ListedDistance): DigitSwap[] {
  return [span.from, span.to].flatMap((id, i) => {
    const point = chassis.points.get(id)!;
    const other = chassis.points.get(i === 0 ? span.to : span.from)!;
    const shared = isShared(chassis, point);
    return swapsOf(chassis, point).flatMap(({ axis, number, text, position }): DigitSwap[] => {
      const moved = inVehicleSigns(position, point);
      // a number that both sides share moves both
      const otherMoved =
        offsetOf(other) === offsetOf(point) ? inVehicleSigns(position, other) : other.reference;
      const lengthMm =
        i === 0 ? spanLengthMm(span, moved, otherMoved) : spanLengthMm(span, otherMoved, moved);
      if (Math.abs(lengthMm - span.distanceMm) > settledMm) return [];
      return [
        {
          cause: causeOf(span),
          what: `${axisNames[axis]} of ${shared ? point.name : id}`,
          number,
          text,
          settles: (mm) =>
            `make ${span.from} to ${span.to} fit its listed ${figure(span.distanceMm / mm, mm === 1 ? 1 : 3)}`,
        },
      ];
    });
  });
}

const inVehicleSigns = ([length, width, height]: Vec3, point: Point): Vec3 => [
  length,
  outward(point) * width,
  height,
];

const offsetOf = ({ coordinates }: Point): string =>
  `${coordinates.uri} ${offsetsOf(coordinates.place).start}`;

const isShared = (chassis: Chassis, point: Point): boolean => {
  const other =
    point.side === null ? undefined : chassis.points.get(`${point.name}.${point.side === 'L' ? 'R' : 'L'}`);
  return other !== undefined && offsetOf(other) === offsetOf(point);
};
