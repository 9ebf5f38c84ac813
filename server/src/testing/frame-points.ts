import { Matrix } from 'ml-matrix';
import { type SeededRandom, seededRandom } from '../../../tests/published/seeded-random';
import { rigidFit } from '../geometry/rigid-motion';
import { add, type Vec3, zero } from '../geometry/vector';
import type { FramePoint, WitnessGroup } from '../inspection/frame/frame-points';
import { type PointName, placeOf } from './marten';

/** The whole Marten as points of the frame, and the same questions answered by whole matrices. */

const both = (name: PointName): [string, Vec3][] => {
  const [x, y, z] = placeOf(name);
  return [
    [`${name}.L`, [x, y, z]],
    [`${name}.R`, [x, -y, z]],
  ];
};

const controlPlaces: [string, Vec3][] = [
  ...both('floor-front'),
  ...both('floor-rear'),
  ...both('toe-board'),
  ...both('rear-frame'),
  ...both('tunnel-front'),
  ...both('tunnel-rear'),
];
const groupPlaces: Record<string, [string, Vec3][]> = {
  'rear end': [...both('rear-rail-tip'), ...both('rear-rail-extension')],
  pillar: [...both('pillar-low'), ...both('pillar-high')],
  sill: [...both('sill-front'), ...both('sill-rear')],
};

export const point = (id: string, place: Vec3, off: Vec3, variance: number): FramePoint => ({
  id,
  place,
  off,
  variance,
  half: [3, 3, 3],
  name: id.replace(/\.[LR]$/, ''),
  side: id.endsWith('.L') ? 'L' : id.endsWith('.R') ? 'R' : null,
});

export interface Body {
  readonly base: FramePoint[];
  readonly groups: WitnessGroup[];
}

/** Ahead of the base on both sides. */
export const scope = both('rail-tip-lower').map(([id, place]) => point(id, place, zero, 0.25));

/** A body of which each point is displaced by `shift` and scatters; deviations by the control points' own fit. */
export function bodyWith(count: number, shift: (id: string, place: Vec3) => Vec3, seed?: number): Body {
  const random: SeededRandom | null = seed === undefined ? null : seededRandom(seed);
  const noise = (mm: number): Vec3 =>
    random === null ? zero : [random.normal(mm), random.normal(mm), random.normal(mm)];
  const read = ([id, place]: [string, Vec3], mm: number) => add(shift(id, place), noise(mm));
  const control = controlPlaces.slice(0, count);
  const offs = control.map((each) => read(each, 0.58));
  const fit = rigidFit(
    control.map(([, place], i) => add(place, offs[i])),
    control.map(([, place]) => place),
    control.map(() => 1),
  );
  const carried = (place: Vec3, off: Vec3): Vec3 => {
    const [x, y, z] = add(place, off);
    const at = (k: 0 | 1 | 2) =>
      fit.rotation[k][0] * x +
      fit.rotation[k][1] * y +
      fit.rotation[k][2] * z +
      fit.translation[k] -
      place[k];
    return [at(0), at(1), at(2)];
  };
  return {
    base: control.map(([id, place], i) => point(id, place, carried(place, offs[i]), 0.34)),
    groups: Object.entries(groupPlaces).map(([name, places]) => {
      const shared = noise(0.7);
      return {
        name,
        points: places.map(([id, place]) =>
          point(id, place, carried(place, add(read([id, place], 0.75), shared)), 0.09),
        ),
      };
    }),
  };
}

/** [I, −[r]×] for every point, one under the other. */
export function designOf(points: readonly FramePoint[]): number[][] {
  return points.flatMap(({ place: [x, y, z] }) => [
    [1, 0, 0, 0, z / 1000, -y / 1000],
    [0, 1, 0, -z / 1000, 0, x / 1000],
    [0, 0, 1, y / 1000, -x / 1000, 0],
  ]);
}

/** I₃ ⊗ of a matrix over points. */
export function onEachAxis(covariance: readonly (readonly number[])[]): Matrix {
  const n = covariance.length;
  const result = Matrix.zeros(3 * n, 3 * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++)
      for (let k = 0; k < 3; k++) result.set(3 * i + k, 3 * j + k, covariance[i][j]);
  return result;
}

/** Generalised least squares by whole matrices: what is left, χ², the solution and its covariance. */
export function wholeFit(
  design: readonly (readonly number[])[],
  values: readonly number[],
  information: Matrix,
) {
  const a = new Matrix(design.map((row) => [...row]));
  const y = Matrix.columnVector([...values]);
  const normal = a.transpose().mmul(information).mmul(a);
  const covariance = inverse(normal);
  const solution = covariance.mmul(a.transpose()).mmul(information).mmul(y);
  const left = Matrix.sub(y, a.mmul(solution));
  return {
    chiSquare: left.transpose().mmul(information).mmul(left).get(0, 0),
    solution: solution.to1DArray(),
    covariance,
    left: left.to1DArray(),
  };
}

export function inverse(m: Matrix): Matrix {
  // Gauss & Jordan with pivots, so that nothing of the code under test is asked
  const n = m.rows;
  const rows = m.to2DArray().map((row, i) => [...row, ...Array.from({ length: n }, (_, j) => +(i === j))]);
  for (let column = 0; column < n; column++) {
    let pivot = column;
    for (let row = column; row < n; row++)
      if (Math.abs(rows[row][column]) > Math.abs(rows[pivot][column])) pivot = row;
    [rows[column], rows[pivot]] = [rows[pivot], rows[column]];
    const by = rows[column][column];
    rows[column] = rows[column].map((each) => each / by);
    for (let row = 0; row < n; row++)
      if (row !== column) {
        const factor = rows[row][column];
        rows[row] = rows[row].map((each, j) => each - factor * rows[column][j]);
      }
  }
  return new Matrix(rows.map((row) => row.slice(n)));
}

export const offsOf = (points: readonly FramePoint[]): number[] => points.flatMap(({ off }) => [...off]);

/** Left for right, or front for rear (turned about the vertical), or moved along: what the car's frame may be called. */
export const changes: Record<string, { of: (v: Vec3) => Vec3; at: (v: Vec3) => Vec3; swaps: boolean }> = {
  mirrored: { of: ([x, y, z]) => [x, -y, z], at: ([x, y, z]) => [x, -y, z], swaps: true },
  'end for end': { of: ([x, y, z]) => [-x, -y, z], at: ([x, y, z]) => [-x, -y, z], swaps: true },
  'moved along': { of: (v) => v, at: ([x, y, z]) => [x + 5000, y, z - 300], swaps: false },
};

export function changed(body: Body, { of, at, swaps }: (typeof changes)[string]): Body {
  const other = { L: 'R', R: 'L' } as const;
  const each = (one: FramePoint): FramePoint => ({
    ...one,
    place: at(one.place),
    off: of(one.off),
    half: of(one.half).map(Math.abs) as unknown as Vec3,
    side: swaps && one.side !== null ? other[one.side] : one.side,
  });
  return {
    base: body.base.map(each),
    groups: body.groups.map((group) => ({ ...group, points: group.points.map(each) })),
  };
}
