import { add, transformed, type Vec3 } from '../../../server/src/geometry/vector';
import { advised } from '../../../server/src/inspection/advice/job-advice';
import { inspected } from '../../../server/src/inspection/job/inspect';
import type { Stage } from '../../../server/src/inspection/job/stage';
import { isWeak } from '../../../server/src/inspection/job/weak';
import type { Chassis } from '../../../server/src/model/chassis';
import type { Job, Reading } from '../../../server/src/model/job';
import type { SeededRandom } from '../../published/seeded-random';
import { nowhere, scopePoints } from '../body';
import { anyRotation, below, jobRandom, normalVec3 } from '../random';
import { Tally } from '../tally';
import { chassis as whole } from './body';
import { standingCar } from './car';
import { frameJob } from './count';
import { frameCellAt, scattersMm, uncertaintiesMm } from './scenarios';

/** Sound bodies of which some control points are read, then what is advised, then judged: can every point of the scope be decided? */

/** Seeds of these bodies are apart from those of the other grids. */
const seedApart = 0xad1ce;
/** Pairs of control points that are read before anyone asks. */
export const pairsReadBefore = [0, 1, 2, 3] as const;
const carsEach = 40;

const dimensions = [pairsReadBefore.length, scattersMm.length, uncertaintiesMm.length, carsEach];
export const adviceGridSize = dimensions.reduce((product, size) => product * size, 1);

export interface AdviceCell {
  readonly index: number;
  readonly pairsRead: (typeof pairsReadBefore)[number];
  readonly scatterMm: (typeof scattersMm)[number];
  readonly uncertaintyMm: (typeof uncertaintiesMm)[number];
}

/** @param index 0 to adviceGridSize − 1 */
export function adviceCellAt(index: number): AdviceCell {
  let rest = index;
  const [a, b, c] = dimensions.map((size) => {
    const digit = rest % size;
    rest = Math.floor(rest / size);
    return digit;
  });
  return {
    index,
    pairsRead: pairsReadBefore[a],
    scatterMm: scattersMm[b],
    uncertaintyMm: uncertaintiesMm[c],
  };
}

export const adviceOutcomes = [
  'decided before',
  'told that it can be reached',
  'decided after',
  'settled after',
] as const;

export function talliedAdvice(indices: Iterable<number>, seed: number): Tally {
  const tally = new Tally();
  for (const index of indices) {
    const cell = adviceCellAt(index);
    const found = followed(cell, seed);
    for (const outcome of adviceOutcomes)
      for (const pairs of [cell.pairsRead, 'all'])
        tally.count(['advice', pairs, cell.scatterMm, outcome], found[outcome]);
  }
  return tally;
}

/** One body: what could be decided, what was advised, and what can be decided once that is read. */
export function followed(cell: AdviceCell, seed: number): Record<(typeof adviceOutcomes)[number], boolean> {
  const random = jobRandom(seed ^ seedApart, cell.index);
  const { job, chassis, read, readingOf } = adviceJob(cell, random);
  const before = inspected(withReadings(job, read.map(readingOf)), chassis);
  const advice = advised(before, before.stages[0], null);
  if (typeof advice === 'string') throw new Error(advice);
  const more = advice.steps.flatMap(({ ids }) => ids);
  const [after] = inspected(withReadings(job, [...read, ...more].map(readingOf)), chassis).stages;
  return {
    'decided before': isDecidable(before.stages[0]),
    'told that it can be reached': advice.reached && advice.coarse === null,
    'decided after': isDecidable(after),
    'settled after': isDecidable(after) && !after.provisional,
  };
}

interface AdviceJob {
  readonly job: Job;
  /** The body with those control points alone that stand on this car. */
  readonly chassis: Chassis;
  /** What is read before anyone asks: some pairs of control points, and all that is to be judged. */
  readonly read: readonly string[];
  readonly readingOf: (id: string) => Reading;
}

function adviceJob({ pairsRead, scatterMm, uncertaintyMm }: AdviceCell, random: SeededRandom): AdviceJob {
  const sound = { ...frameCellAt(0), scenario: 'sound', scatterMm, uncertaintyMm, controlCount: 12 } as const;
  const { positions, control } = standingCar(sound, random);
  const rotation = anyRotation(random);
  const origin: Vec3 = [
    random.uniform(-4000, 4000),
    random.uniform(-4000, 4000),
    random.uniform(-4000, 4000),
  ];
  const readings = new Map<string, Reading>();
  for (const [id, position] of positions) {
    const triple = add(add(transformed(rotation, position), origin), normalVec3(random, uncertaintyMm));
    const text = { key: nowhere, value: nowhere, typed: null, hasPlainKey: false };
    readings.set(id, { id, triplesMm: [triple], unreachable: false, asBefore: false, ...text });
  }
  const names = [...new Set(control.map(({ name }) => name))];
  const begun = Array.from({ length: pairsRead }, () => names.splice(below(random, names.length), 1)[0]);
  const points = [...whole.points].filter(([id]) => positions.has(id));
  return {
    job: frameJob(sound, 1).job,
    chassis: { ...whole, points: new Map(points) },
    read: [...begun.flatMap((name) => [`${name}.L`, `${name}.R`]), ...scopePoints.map(({ id }) => id)],
    readingOf: (id) => readings.get(id)!,
  };
}

function withReadings(job: Job, readings: readonly Reading[]): Job {
  const timeline = job.timeline.map((entry) => (entry.kind === 'measure' ? { ...entry, readings } : entry));
  return { ...job, timeline };
}

const scopeIds = new Set(scopePoints.map(({ id }) => id));

/** There is an alignment, and it is weak at no point of the scope. */
const isDecidable = ({ alignment, points }: Stage): boolean =>
  alignment?.base !== null &&
  alignment !== null &&
  points.every((judged) => !scopeIds.has(judged.id) || !isWeak(judged));
