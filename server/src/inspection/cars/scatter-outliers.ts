import { chiSquareQuantile } from '../../geometry/distributions';
import { eigenPairs, matrixFunction } from '../../geometry/symmetric';
import { type Projected, projected } from '../../geometry/variance-blocks';
import { type Mat3, quadratic, type Vec3 } from '../../geometry/vector';
import { type ScatterReading, scatterBlock } from './scatter-block';

/** Readings of one car that would be off together: of a point in all stages, of a point in one, of a group. */
interface Unit {
  readonly of: 'control' | 'elsewhere' | 'group' | 'reading';
  readonly members: readonly number[];
}

interface Shifted extends Unit {
  /** χ² on three degrees of freedom of a shift of its own. */
  readonly gain: number;
}

/** Chosen: of ten thousand sound units one is left out, so that scatter is not measured without its own tails. */
const outlying = chiSquareQuantile(0.9999, 3);
const usualGain = chiSquareQuantile(0.5, 3);

/** What a shift of each unit of a car's readings would gain, by the scatter as estimated. Empty where that cannot be worked out. */
function shiftedUnits(
  readings: readonly ScatterReading[],
  instruments: readonly string[],
  variances: readonly number[],
): Shifted[] {
  const at = projected(scatterBlock(readings, instruments), variances);
  if (at === null) return [];
  return unitsOf(readings).flatMap((unit) => {
    const gain = gainOf(unit.members, at);
    return gain === null ? [] : [{ ...unit, gain }];
  });
}

/**
 * The readings of each car without the one unit of it that is off most, where one is off by more than chance. Damage raises the scatter that it is
 * held against, and would hide itself: gains are measured by what is usual, where that is less than it would be.
 */
export function withoutOutliers(
  cars: readonly (readonly ScatterReading[])[],
  instruments: readonly string[],
  variances: readonly number[],
): { readonly kept: readonly (readonly ScatterReading[])[]; readonly leftOut: number } {
  const all = cars.map((readings) => shiftedUnits(readings, instruments, variances));
  const usual = new Map(
    (['control', 'elsewhere', 'group', 'reading'] as const).map((of) => [
      of,
      Math.min(1, medianOf(all.flat().filter((unit) => unit.of === of)) / usualGain),
    ]),
  );
  let leftOut = 0;
  const kept = cars.map((readings, i) => {
    const excess = ({ of, gain }: Shifted): number => gain / (usual.get(of) ?? 1);
    const worst = all[i].reduce<Shifted | null>(
      (a, b) => (a === null || excess(b) > excess(a) ? b : a),
      null,
    );
    if (worst === null || excess(worst) <= outlying) return readings;
    leftOut += 1;
    const out = new Set(worst.members);
    return readings.filter((_, k) => !out.has(k));
  });
  return { kept, leftOut };
}

function medianOf(units: readonly Shifted[]): number {
  if (units.length === 0) return usualGain;
  const gains = units.map(({ gain }) => gain).sort((a, b) => a - b);
  return gains[gains.length >> 1];
}

function unitsOf(readings: readonly ScatterReading[]): Unit[] {
  const units = new Map<string, { of: Unit['of']; members: number[] }>();
  const add = (key: string, of: Unit['of'], member: number): void => {
    const known = units.get(key);
    if (known === undefined) units.set(key, { of, members: [member] });
    else known.members.push(member);
  };
  readings.forEach(({ point, group, stage }, i) => {
    add(`point ${point.id}`, point.base ? 'control' : 'elsewhere', i);
    if (!point.base) add(`group ${group}`, 'group', i);
    add(`reading ${stage} ${point.id}`, 'reading', i);
  });
  return [...units.values()];
}

/** gᵀH⁻¹g with g = MᵀPy and H = MᵀPM, where M shifts the members as one. */
function gainOf(members: readonly number[], { matrix, values }: Projected): number | null {
  const n = values.length;
  const on = (k: number) => members.reduce((sum, i) => sum + values[3 * i + k], 0);
  const between = (k: number, l: number) => {
    let sum = 0;
    for (const i of members) for (const j of members) sum += matrix[(3 * i + k) * n + 3 * j + l];
    return sum;
  };
  const row = (k: number): Vec3 => [between(k, 0), between(k, 1), between(k, 2)];
  const normal: Mat3 = [row(0), row(1), row(2)];
  const pairs = eigenPairs(normal);
  if (!(pairs[0].value > 1e-9 * pairs[2].value)) return null;
  const inverse = matrixFunction(pairs, (value) => 1 / value);
  return quadratic([on(0), on(1), on(2)], inverse);
}
