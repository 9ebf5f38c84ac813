import { add, transformed, type Vec3 } from '../../server/src/geometry/vector';
import { chassisHash } from '../../server/src/inspection/gate/chassis-hash';
import type { Instrument, Job, Measure, TimelineEntry } from '../../server/src/model/job';
import type { SeededRandom } from '../published/seeded-random';
import { chassis, nowhere, scopeParts, soundZone } from './body';
import { type TrueCar, trueCar } from './car';
import type { Cell } from './grid';
import { anyRotation, below, jobRandom, normalVec3 } from './random';
import { pullsBetween, recoveryOf, type State, type TruePull } from './recovery';

/** A signed job in the program's own model, and what is true of its car. */
export interface SimulatedJob {
  readonly cell: Cell;
  readonly job: Job;
  readonly car: TrueCar;
  /** In the order of the work, all on one rail; by the pull's position in the timeline. */
  readonly pulls: ReadonlyMap<number, TruePull>;
}

const place = { place: nowhere, keyPlace: nowhere, note: null };
const hash = chassisHash(chassis);

/** The instrument wherever it was set up: what it reads of a state, in a frame of its own. */
function instrumentSetUp(random: SeededRandom, uncertaintyMm: number) {
  const rotation = anyRotation(random);
  const origin: Vec3 = [
    random.uniform(-4000, 4000),
    random.uniform(-4000, 4000),
    random.uniform(-4000, 4000),
  ];
  return (name: string, state: State): Measure => ({
    ...place,
    kind: 'measure',
    name,
    by: null,
    at: null,
    setUp: null,
    instrument: null,
    conditions: null,
    readings: [...state].map(([id, position]) => ({
      id,
      triplesMm: [add(add(transformed(rotation, position), origin), normalVec3(random, uncertaintyMm))],
      unreachable: false,
      asBefore: false,
      key: nowhere,
      value: nowhere,
      typed: null,
      hasPlainKey: false,
    })),
    spans: [],
    summary: [],
  });
}

const mention = (id: string) => ({ id, place: nowhere });

/** Received, pulled once to three times with a peak and a released reading each, measured whole, signed. */
export function simulatedJob(cell: Cell, seed: number): SimulatedJob {
  const random = jobRandom(seed, cell.index);
  const car = trueCar(cell, random);
  const timeline: TimelineEntry[] = [];
  const pulls = new Map<number, TruePull>();
  const first = instrumentSetUp(random, cell.uncertaintyMm);
  timeline.push(first('as received', car.received));
  if (car.field !== null) {
    const part = mostDisplaced(car);
    const ids = [...car.final.keys()].filter((id) => chassis.points.get(id)?.part === part);
    const recovery = recoveryOf(cell.recovery, random);
    const count = 1 + below(random, 3);
    const relieved = random.uniform(0, 1) < 0.67;
    // the peaks of every other job are read in a set-up of their own, control points and all
    const anew = random.uniform(0, 1) < 0.5;
    const control = [...car.received].filter(([id]) => chassis.points.get(id)?.base);
    for (const pull of pullsBetween(car.received, car.final, ids, count, recovery, random)) {
      const name = `pull ${pulls.size + 1}`;
      pulls.set(timeline.length, pull);
      timeline.push({
        ...place,
        kind: 'pull',
        title: name,
        part: mention(part),
        chains: [],
        holds: [],
        holdsUnclear: false,
        plan: [],
      });
      const setUp = anew ? instrumentSetUp(random, cell.uncertaintyMm) : first;
      const read = (state: State): State => (anew ? new Map([...control, ...state]) : state);
      timeline.push(setUp(`${name} under load`, read(pull.peak)));
      if (relieved) timeline.push({ ...place, kind: 'relieve', parts: 'all' });
      timeline.push({ ...place, kind: 'release', parts: 'all' });
      if (pulls.size < count) timeline.push(setUp(`after ${name}`, read(pull.after)));
    }
    timeline.push(instrumentSetUp(random, cell.uncertaintyMm)('finished', car.final));
  } else timeline.push(instrumentSetUp(random, cell.uncertaintyMm)('checked', car.final));
  return { cell, car, pulls, job: signedJob(cell, timeline) };
}

function mostDisplaced({ received, final }: TrueCar): 'front-rail.L' | 'front-rail.R' {
  const way = (part: string) => {
    let total = 0;
    for (const [id, a] of received)
      if (chassis.points.get(id)?.part === part) {
        const b = final.get(id)!;
        total += Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
      }
    return total;
  };
  return way('front-rail.L') >= way('front-rail.R') ? 'front-rail.L' : 'front-rail.R';
}

function signedJob(cell: Cell, timeline: readonly TimelineEntry[]): Job {
  const instrument: Instrument = {
    name: 'bench arm',
    uncertaintyMm: cell.uncertaintyMm,
    serial: null,
    calibrated: null,
    repeatabilityMm: null,
    spanUncertaintyMm: null,
    place: nowhere,
  };
  return {
    uri: 'memory:///job.readings.yaml',
    unit: 'mm',
    places: 'vehicle',
    chassisPath: 'teal.chassis.yaml',
    chassisPlace: null,
    order: `S-${cell.index}`,
    orderPlace: null,
    technician: null,
    instrument,
    axes: ['forward', 'left', 'up'],
    base: cell.controlState === 'stated zone' ? { kind: 'between', ...soundZone } : { kind: 'auto' },
    basePlace: null,
    conditions: new Map(),
    anchors: [],
    scope: scopeParts.map(mention),
    timeline,
    signOff: {
      by: 'rk',
      date: '2026-03-05',
      chassis: hash,
      chassisPlace: null,
      readings: null,
      readingsPlace: null,
      judgedBy: '0.2',
      accepted: [],
      place: nowhere,
      keyPlace: nowhere,
    },
    problems: [],
    broken: false,
    ignores: [],
    leftOut: [],
    head: nowhere,
  };
}
