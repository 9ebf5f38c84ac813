import { carRead } from '../../../server/src/inspection/cars/car';
import { type Donor, referenceOf } from '../../../server/src/inspection/cars/references';
import { chassis as body } from '../frame/body';
import { jobRandom } from '../random';
import type { Tally } from '../tally';
import { bodyStating, builtCar, inspectedOn, readCar } from './jobs';

/** Points that the file does not have yet, and that the cars give. */
export const newNames = ['sill-middle', 'rear-rail-middle', 'pillar-middle'] as const;

export const carCounts = [1, 2, 3, 5, 10] as const;
const scatters = [0.3, 0.5, 1] as const;
const uncertainties = [0.3, 0.5] as const;
/** Whether the file states the scatter that is true, or what is taken where it states none: 0.5 and 1 mm. */
export const statings = ['true', 'default'] as const;

const coverage95 = 1.96;
const seedApart = 0xca45;

/** Cars of every cell, so many trials of each: how often the 95 % interval of a new point covers where the body's design has it. */
export function talliedReferences(tally: Tally, trials: number, seed: number): void {
  let index = 0;
  for (const stating of statings)
    for (const cars of carCounts)
      for (const scatterMm of scatters)
        for (const uncertaintyMm of uncertainties)
          for (let trial = 0; trial < trials; trial++)
            oneTrial(
              tally,
              { stating, cars, scatterMm, uncertaintyMm },
              jobRandom(seed ^ seedApart, index++),
            );
}

interface Cell {
  readonly stating: (typeof statings)[number];
  readonly cars: number;
  readonly scatterMm: number;
  readonly uncertaintyMm: number;
}

function oneTrial(
  tally: Tally,
  { stating, cars, scatterMm, uncertaintyMm }: Cell,
  random: ReturnType<typeof jobRandom>,
): void {
  const stated = stating === 'true' ? ([scatterMm, scatterMm] as const) : ([0.5, 1] as const);
  const chassis = bodyStating(...stated, new Set(newNames));
  const built = { controlCount: 8, buildMm: scatterMm, elsewhereMm: scatterMm, uncertaintyMm } as const;
  const donors = Array.from({ length: cars }, (_, i): Donor[] => {
    const order = `W-${i + 1}`;
    const job = readCar(builtCar(built, random), uncertaintyMm, { times: 1, scope: null, order }, random);
    const car = carRead(inspectedOn(job, chassis));
    tally.count(['a sound car gives references', stating, scatterMm], car.kind === 'car');
    return car.kind === 'car' ? [{ name: order, car }] : [];
  }).flat();
  // what is asked is of so many cars
  if (donors.length < cars) return;
  for (const name of newNames) {
    const reference = referenceOf(name, donors, chassis);
    for (const { key, over } of reference?.positions ?? []) {
      if (over.cars < cars) continue;
      const truth = body.points.get(`${name}.${key === 'right' ? 'R' : 'L'}`);
      if (truth === undefined) continue;
      over.at.forEach((mm, k) => {
        const isCovered = Math.abs(mm - truth.reference[k]) <= coverage95 * over.uncertainty[k];
        tally.count(['reference covered', stating, cars, scatterMm], isCovered);
        tally.count(['reference covered', stating, cars], isCovered);
      });
    }
  }
}
