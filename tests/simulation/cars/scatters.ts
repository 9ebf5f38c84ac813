import { add, scaled, type Vec3, zero } from '../../../server/src/geometry/vector';
import { type MeasuredScatter, measuredScatter } from '../../../server/src/inspection/cars/scatter';
import { scatterCar } from '../../../server/src/inspection/cars/scatter-block';
import type { Point } from '../../../server/src/model/chassis';
import type { SeededRandom } from '../../published/seeded-random';
import { scopeParts } from '../body';
import { jobRandom, pick, unitVec3 } from '../random';
import type { Tally } from '../tally';
import { type BuiltCell, bodyStating, builtCar, inspectedOn, readCar } from './jobs';

/** Repositories of 40 jobs, damaged ones among them, whose scatter is measured. */
export const jobCount = 40;

/** True scatter; the file states 0.5 and 1 mm in every cell. */
export const scatterCells: readonly BuiltCell[] = [
  { controlCount: 8, buildMm: 0.5, elsewhereMm: 1, uncertaintyMm: 0.5 },
  { controlCount: 8, buildMm: 0.5, elsewhereMm: 1, uncertaintyMm: 0.3 },
  { controlCount: 6, buildMm: 0.3, elsewhereMm: 0.6, uncertaintyMm: 0.5 },
  { controlCount: 6, buildMm: 0.5, elsewhereMm: 0.8, uncertaintyMm: 0.3 },
  { controlCount: 8, buildMm: 0.8, elsewhereMm: 1.2, uncertaintyMm: 0.3 },
];

export const cellName = ({ controlCount, buildMm, elsewhereMm, uncertaintyMm }: BuiltCell): string =>
  `build ${buildMm}, elsewhere ${elsewhereMm}, instrument ${uncertaintyMm}, ${controlCount} control points`;

/** Shares of jobs that have more wrong than their scope says. */
const undeclared = 0.15;
const movedControl = 0.1;
const seedApart = 0x5ca7;

export function talliedScatters(tally: Tally, repositories: number, seed: number): void {
  scatterCells.forEach((cell, i) => {
    for (let r = 0; r < repositories; r++) {
      const found = measuredRepository(cell, jobRandom(seed ^ seedApart, i * 100_003 + r));
      const truths = {
        build: cell.buildMm,
        'build-elsewhere': cell.elsewhereMm,
        instrument: cell.uncertaintyMm,
      };
      for (const { of, measured } of found?.scatters ?? []) {
        const [low, high] = measured?.intervalMm ?? [Number.POSITIVE_INFINITY, 0];
        const isCovered = low <= truths[of] && truths[of] <= high;
        tally.count(['scatter covered', of, cellName(cell)], isCovered);
        tally.count(['scatter covered', of], isCovered);
      }
    }
  });
}

/** What 40 jobs tell: each reads its car twice, as it came and at the end. */
export function measuredRepository(cell: BuiltCell, random: SeededRandom): MeasuredScatter | null {
  const chassis = bodyStating(0.5, 1, new Set());
  const cars = Array.from({ length: jobCount }, (_, i) => {
    const car = builtCar(cell, random, damage(random));
    const asked = { times: 2, scope: scopeParts, order: `W-${i + 1}` };
    return scatterCar(inspectedOn(readCar(car, cell.uncertaintyMm, asked, random), chassis));
  });
  return measuredScatter(
    cars.filter((car) => car !== null),
    chassis,
  );
}

/** The scope is bent in every car; in some a part that nobody declared, or a control point, by 5–12 mm. */
function damage(random: SeededRandom): (point: Point) => Vec3 {
  const shift = () => scaled(unitVec3(random), random.uniform(5, 12));
  const declared = shift();
  const part =
    random.uniform(0, 1) < undeclared ? pick(random, ['sill', 'centre-pillar', 'roof', 'tail']) : null;
  const control =
    random.uniform(0, 1) < movedControl
      ? pick(random, ['floor-front.L', 'floor-rear.R', 'toe-board.L'])
      : null;
  const [ofPart, ofControl] = [shift(), shift()];
  return (point) => {
    const name = point.part?.replace(/\.[LR]$/, '') ?? null;
    const inScope = !point.base && scopeParts.some((each) => each === point.part);
    const undeclaredHere = !point.base && name === part ? ofPart : zero;
    return add(add(inScope ? declared : zero, undeclaredHere), point.id === control ? ofControl : zero);
  };
}
