import { add, transformed, type Vec3 } from '../../../server/src/geometry/vector';
import { inspected } from '../../../server/src/inspection/job/inspect';
import type { Stage } from '../../../server/src/inspection/job/stage';
import type { Job, Measure } from '../../../server/src/model/job';
import { nowhere, scopeParts, scopePoints } from '../body';
import { cellAt } from '../grid';
import { simulatedJob } from '../job';
import { anyRotation, jobRandom, normalVec3 } from '../random';
import { Tally } from '../tally';
import { chassis } from './body';
import { type StandingCar, standingCar } from './car';
import { type FrameCell, frameCellAt } from './scenarios';

/** Seeds of this grid are apart from those of the other one. */
const seedApart = 0x5eed;

/** A job that reads a body once: control points and all else, in a frame of the instrument's own. */
export function frameJob(cell: FrameCell, seed: number): { job: Job; car: StandingCar } {
  const random = jobRandom(seed ^ seedApart, cell.index);
  const car = standingCar(cell, random);
  const rotation = anyRotation(random);
  const origin: Vec3 = [
    random.uniform(-4000, 4000),
    random.uniform(-4000, 4000),
    random.uniform(-4000, 4000),
  ];
  const pattern = patternJob.timeline[0] as Measure;
  const measure: Measure = {
    ...pattern,
    name: 'as received',
    readings: [...car.positions].map(([id, position]) => ({
      id,
      triplesMm: [add(add(transformed(rotation, position), origin), normalVec3(random, cell.uncertaintyMm))],
      unreachable: false,
      asBefore: false,
      key: nowhere,
      value: nowhere,
      typed: null,
      hasPlainKey: false,
    })),
  };
  const mention = (id: string) => ({ id, place: nowhere });
  const job: Job = {
    ...patternJob,
    instrument: { ...patternJob.instrument!, uncertaintyMm: cell.uncertaintyMm },
    base:
      cell.scenario === 'listed base, half of it moved'
        ? { kind: 'ids', ids: car.control.map(({ id }) => mention(id)) }
        : { kind: 'auto' },
    scope: cell.scenario === 'no scope stated' ? null : scopeParts.map(mention),
    timeline: [measure],
    signOff: null,
  };
  return { job, car };
}

const patternJob = simulatedJob(cellAt(0), 1).job;

/** What is counted of every stage; each is one outcome of all. */
export const outcomes = ['settled and wrong', 'provisional', 'sound point accused', 'told'] as const;

export function talliedFrames(indices: Iterable<number>, seed: number): Tally {
  const tally = new Tally();
  for (const index of indices) {
    const cell = frameCellAt(index);
    const { job, car } = frameJob(cell, seed);
    const [stage] = inspected(job, chassis).stages;
    countFrame(tally, cell, car, stage);
  }
  return tally;
}

function countFrame(tally: Tally, cell: FrameCell, car: StandingCar, stage: Stage): void {
  const { alignment } = stage;
  if (alignment === null) throw new Error('Every stage reads control points.');
  const settled = alignment.base !== null && !stage.provisional;
  const listed = cell.scenario === 'listed base, half of it moved';
  const said = alignment.faults.some(({ kind }) => ['moved', 'list-contradicts'].includes(kind));
  const reached = {
    'settled and wrong': settled && !listed && alignment.baseIds.some((id) => car.movedIds.has(id)),
    provisional: !settled,
    'sound point accused': settled && alignment.movedIds.some((id) => !car.movedIds.has(id)),
    told: !settled || said || (listed && car.movedIds.size === 0),
  };
  for (const outcome of outcomes)
    for (const count of [cell.controlCount, 'all'])
      tally.count(['frame', cell.scenario, count, cell.scatterMm, outcome], reached[outcome]);
  if (settled) countFigures(tally, cell, car, stage);
}

const scopeIds = new Set(scopePoints.map(({ id }) => id));

/** Figures of the scope's points against where their metal is. */
function countFigures(tally: Tally, cell: FrameCell, car: StandingCar, stage: Stage): void {
  for (const { id, point, deviation, uncertainty } of stage.points) {
    if (!scopeIds.has(id)) continue;
    for (const k of [0, 1, 2] as const) {
      const [d, u] = [deviation[k], uncertainty[k]];
      if (d === null || u === null) continue;
      const off = Math.abs(d - (car.positions.get(id)![k] - point.reference[k])) / u;
      tally.count(['frame figures', cell.scenario, cell.scatterMm, 'covered'], off <= 1.96);
      tally.count(['frame figures', cell.scenario, cell.scatterMm, 'beyond 3 u'], off > 3);
    }
  }
}
