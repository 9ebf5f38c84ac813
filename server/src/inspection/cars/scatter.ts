import { chiSquareQuantile } from '../../geometry/distributions';
import {
  degreesOfFreedomOf,
  type VarianceComponents,
  varianceComponents,
  varianceInterval,
} from '../../geometry/variance-components';
import type { Chassis } from '../../model/chassis';
import { assumedUncertaintyMm } from '../alignment/uncertainty';
import {
  buildAt,
  componentCount,
  groupAt,
  instrumentAt,
  ownAt,
  type ScatterCar,
  type ScatterReading,
  scatterBlock,
} from './scatter-block';
import { withoutOutliers } from './scatter-outliers';

/** A standard deviation as it was measured over cars, mm. */
export interface Scatter {
  readonly of: 'build' | 'build-elsewhere' | 'instrument';
  /** Of an instrument. */
  readonly name: string | null;
  /** As the files state or assume it; null where they state several. */
  readonly statedMm: number | null;
  /** Null where these readings cannot tell it. */
  readonly measured: Measured | null;
  /** Cars that it was measured on. */
  readonly cars: number;
}

interface Measured {
  readonly mm: number;
  /** 95 %. */
  readonly intervalMm: readonly [number, number];
  readonly degreesOfFreedom: number;
  /** What is stated lies outside 99 %. */
  readonly contradicted: boolean;
}

export interface MeasuredScatter {
  readonly cars: number;
  readonly readings: number;
  /** Points, groups and readings of cars that are off by more than scatter, which took no part. */
  readonly leftOut: number;
  readonly scatters: readonly Scatter[];
}

/** Chosen: fewer cars than that tell nothing of cars. */
export const fewestCars = 3;
/** Chosen: a component rests on so many differences at least, or it is not told. */
const fewestDifferences = 12;
const mostRounds = 8;

/** How sound cars of one body and their instruments scatter. Null for fewer than three cars. */
export function measuredScatter(cars: readonly ScatterCar[], chassis: Chassis): MeasuredScatter | null {
  if (cars.length < fewestCars) return null;
  const instruments = [
    ...new Set(cars.flatMap(({ readings }) => readings.map((each) => each.instrument))),
  ].sort();
  const stated = instruments.map((name) => statedOf(name, cars));
  const start = [
    Math.max(chassis.buildMm, 0.05) ** 2,
    Math.max(chassis.buildElsewhereMm, 0.05) ** 2 / 2,
    Math.max(chassis.buildElsewhereMm, 0.05) ** 2 / 2,
    ...stated.map((each) => Math.max(each ?? assumedUncertaintyMm, 0.02) ** 2),
  ];
  let kept: readonly (readonly ScatterReading[])[] = cars.map(({ readings }) => readings);
  let leftOut = 0;
  let found = estimated(kept, instruments, start);
  for (let round = 0; found !== null && round < mostRounds; round++) {
    const next = withoutOutliers(kept, instruments, found.components.variances);
    if (next.leftOut === 0) break;
    leftOut += next.leftOut;
    kept = next.kept.map((readings, i) => (isSpoilt(readings, cars[i].readings) ? [] : readings));
    found = estimated(
      kept,
      instruments,
      found.components.variances.map((each, k) => (each > 0 ? each : start[k])),
    );
  }
  const facts = { chassis, instruments, stated, kept };
  return {
    cars: kept.filter(({ length }) => length > 0).length,
    readings: kept.reduce((sum, each) => sum + each.length, 0),
    leftOut,
    scatters: scattersOf(found, facts),
  };
}

/** Chosen: of a car with so many control points off, nobody knows which of them stand. */
const mostMoved = 2;

const isSpoilt = (kept: readonly ScatterReading[], all: readonly ScatterReading[]): boolean =>
  distinct(all.filter(({ point }) => point.base)) - distinct(kept.filter(({ point }) => point.base)) >
  mostMoved;

/** What all jobs state of an instrument; null where they differ. */
function statedOf(name: string, cars: readonly ScatterCar[]): number | null {
  const values = new Set(cars.flatMap(({ stated }) => (stated.has(name) ? [stated.get(name) ?? null] : [])));
  const [only = null] = values;
  return values.size === 1 ? (only ?? assumedUncertaintyMm) : null;
}

interface Estimated {
  readonly components: VarianceComponents;
  readonly held: readonly boolean[];
}

/** Components that nothing tells stay as stated: then the others are what they would be if that held. */
function estimated(
  cars: readonly (readonly ScatterReading[])[],
  instruments: readonly string[],
  start: readonly number[],
): Estimated | null {
  const held = heldOf(cars, instruments);
  const blocks = cars.filter(isAligned).map((readings) => scatterBlock(readings, instruments));
  if (blocks.length === 0) return null;
  const begun = start.map((each, k) => (k === groupAt && held[k] ? 0 : each));
  const components = varianceComponents(blocks, begun, held);
  return components && { components, held };
}

/** Three points at least in each stage hold its motion. */
const isAligned = (readings: readonly ScatterReading[]): boolean => {
  const counts = new Map<number, number>();
  for (const { stage } of readings) counts.set(stage, (counts.get(stage) ?? 0) + 1);
  return counts.size > 0 && [...counts.values()].every((count) => count >= 3);
};

function heldOf(cars: readonly (readonly ScatterReading[])[], instruments: readonly string[]): boolean[] {
  const held = new Array<boolean>(componentCount(instruments)).fill(true);
  const controls = sum(cars, (readings) => 3 * distinct(readings.filter(({ point }) => point.base)) - 6);
  const others = sum(cars, (readings) => distinct(readings.filter(({ point }) => !point.base)));
  const inGroups = sum(cars, (readings) => {
    const outside = readings.filter(({ point }) => !point.base);
    return distinct(outside) - new Set(outside.map(({ group }) => group)).size;
  });
  held[buildAt] = controls < fewestDifferences;
  held[ownAt] = others < fewestDifferences / 3;
  held[groupAt] = held[ownAt] || inGroups < fewestDifferences / 3;
  instruments.forEach((name, i) => {
    const again = sum(cars, (readings) => {
      const own = readings.filter(({ instrument }) => instrument === name);
      // a stage that is read again is aligned again
      return 3 * (own.length - distinct(own)) - 6 * (new Set(own.map(({ stage }) => stage)).size - 1);
    });
    held[instrumentAt(i)] = again < fewestDifferences;
  });
  return held;
}

const distinct = (readings: readonly ScatterReading[]): number =>
  new Set(readings.map(({ point }) => point.id)).size;

const sum = <T>(items: readonly T[], of: (item: T) => number): number =>
  items.reduce((total, item) => total + Math.max(0, of(item)), 0);

interface Facts {
  readonly chassis: Chassis;
  readonly instruments: readonly string[];
  readonly stated: readonly (number | null)[];
  readonly kept: readonly (readonly ScatterReading[])[];
}

function scattersOf(found: Estimated | null, { chassis, instruments, stated, kept }: Facts): Scatter[] {
  const carsWith = (has: (reading: ScatterReading) => boolean) =>
    kept.filter((readings) => readings.some(has)).length;
  const measured = (at: readonly number[], statedMm: number | null) =>
    found === null || found.held[at[0]] ? null : measuredOf(found.components, at, statedMm);
  return [
    {
      of: 'build',
      name: null,
      statedMm: chassis.buildMm,
      measured: measured([buildAt], chassis.buildMm),
      cars: carsWith(({ point }) => point.base),
    },
    {
      of: 'build-elsewhere',
      name: null,
      statedMm: chassis.buildElsewhereMm,
      measured: measured([ownAt, groupAt], chassis.buildElsewhereMm),
      cars: carsWith(({ point }) => !point.base),
    },
    ...instruments.map(
      (name, i): Scatter => ({
        of: 'instrument',
        name,
        statedMm: stated[i],
        measured: measured([instrumentAt(i)], stated[i]),
        cars: carsWith(({ instrument }) => instrument === name),
      }),
    ),
  ];
}

/** The root of a sum of components, with its interval. */
function measuredOf(
  { variances, covariance }: VarianceComponents,
  at: readonly number[],
  statedMm: number | null,
): Measured {
  const variance = at.reduce((total, k) => total + variances[k], 0);
  const its = at.reduce((total, k) => total + at.reduce((row, l) => row + covariance[k][l], 0), 0);
  const [low, high] = varianceInterval(variance, its);
  const degreesOfFreedom = degreesOfFreedomOf(variance, its);
  return {
    mm: Math.sqrt(variance),
    intervalMm: [Math.sqrt(low), Math.sqrt(high)],
    degreesOfFreedom,
    contradicted: statedMm !== null && isContradicted(variance, degreesOfFreedom, statedMm),
  };
}

/** ν s²/σ² is χ² on ν degrees of freedom where σ is true. */
function isContradicted(variance: number, degreesOfFreedom: number, statedMm: number): boolean {
  if (!(degreesOfFreedom > 2)) return false;
  if (statedMm === 0) return true;
  const chiSquare = (degreesOfFreedom * variance) / statedMm ** 2;
  return (
    chiSquare < chiSquareQuantile(0.005, degreesOfFreedom) ||
    chiSquare > chiSquareQuantile(0.995, degreesOfFreedom)
  );
}
