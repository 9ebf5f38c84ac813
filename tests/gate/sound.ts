import { sign } from '../../server/src/commands/sign';
import { ruleNamed } from '../../server/src/findings/rule-list';
import { distance } from '../../server/src/geometry/vector';
import type { Measure, TimelineEntry } from '../../server/src/model/job';
import { Workspace } from '../../server/src/workspace/workspace';
import type { SeededRandom } from '../published/seeded-random';
import { chassis } from '../simulation/body';
import { truthOf } from '../simulation/gate';
import { type Cell, cellAt, gridSize } from '../simulation/grid';
import { type SimulatedJob, simulatedJob } from '../simulation/job';
import { jobRandom } from '../simulation/random';
import { filesOf, jobPath, root, type Shop, sealedAnew, settingsPath } from './shop';

/** Sound, complete jobs as text: what the rules that are new since 0.1 say of them. */

const sheetPath = 'specs/body.chassis.yaml';

/** The car is repaired, its control points stand where they were built, and six of them or more are read. */
const isSound = (cell: Cell): boolean =>
  cell.outcome === 'sound' &&
  cell.controlState === 'none' &&
  cell.controlCount >= 6 &&
  cell.scatterMm === 0.5;
const soundCells: readonly number[] = [...Array(gridSize).keys()].filter((index) => isSound(cellAt(index)));

/** Every measuring off load reads control points, so that it stands by itself. */
function isComplete({ job: { timeline } }: SimulatedJob): boolean {
  let pulled = false;
  return timeline.every((entry) => {
    if (entry.kind === 'pull') pulled = true;
    if (entry.kind === 'release') pulled = false;
    if (entry.kind !== 'measure' || pulled) return true;
    return entry.readings.some(({ id }) => chassis.points.get(id)?.base);
  });
}

/** Sound and complete jobs, one after the other, from seed 1 on. */
function* soundJobs(): Generator<SimulatedJob> {
  for (let seed = 1; ; seed++)
    for (const index of soundCells) {
      const simulated = simulatedJob(cellAt(index), seed);
      const truth = truthOf(simulated);
      if (truth !== 'repaired' && truth !== 'just inside') throw new Error(`${seed}/${index} is ${truth}`);
      if (isComplete(simulated)) yield simulated;
    }
}

/** The parts that the job is about, without sides: those that the damage displaced, and those that every job looks at. */
function scopeOf({ car }: SimulatedJob): Set<string> {
  const hit = [...car.received].filter(([id, at]) => distance(at, car.final.get(id)!) > 0);
  const parts = hit.flatMap(([id]) => chassis.points.get(id)?.part?.replace(/\.[LR]$/, '') ?? []);
  return new Set(['front-rail', 'apron', ...parts]);
}

const triple = (v: readonly number[]): string => `[${v.map((mm) => mm.toFixed(2)).join(', ')}]`;

const sheetText = (): string => {
  const parts = new Map([...chassis.parts.values()].map((part) => [part.name, part]));
  const along = ['length', 'width', 'height'] as const;
  const rows = [...chassis.points.values()]
    .filter(({ side }) => side !== 'R')
    .map(({ name, side, reference: [x, y, z], part, base }) => {
      const position = `${side === null ? 'centre' : 'both'}: ${triple([x, y, z])}`;
      return `  ${name}: { ${position}, part: ${part?.replace(/\.[LR]$/, '')}${base ? ', base: true' : ''} }`;
    });
  return [
    'framewright: chassis/1',
    'vehicle: Teal estate',
    'source: { kind: published, reference: body dimension sheet 7 }',
    'build: 0.5',
    'tolerance: 3',
    'parts:',
    ...[...parts.values()].map(
      (part) =>
        `  ${part.name}: {${part.side === null ? '' : ' sided: true,'} along: ${along[part.along]}, steel: mild, straighten: freely }`,
    ),
    'points:',
    ...rows,
    '',
  ].join('\n');
};

/** An hour apart, so that each measure has its own. */
const hour = (i: number): string => `2026-03-02T${String(7 + i).padStart(2, '0')}:00`;

function entryText(entry: TimelineEntry, i: number, distances: readonly string[]): string[] {
  switch (entry.kind) {
    case 'measure':
      return measureText(entry, i, distances);
    case 'pull':
      return [`  - pull: ${entry.title}`, `    part: ${entry.part?.id}`, '    hold: floor-front'];
    default:
      return [`  - ${entry.kind}: all`];
  }
}

const measureText = ({ name, readings }: Measure, i: number, distances: readonly string[]): string[] => [
  `  - measure: ${name}`,
  `    at: ${hour(i)}`,
  '    readings:',
  ...readings.map(({ id, triplesMm }) => `      ${id}: ${triple(triplesMm[0])}`),
  ...(distances.length === 0 ? [] : ['    spans:', ...distances.map((each) => `      - ${each}`)]),
];

/** Two distances as a tram gauge reads them on the finished car. */
function distancesOf({ car }: SimulatedJob, random: SeededRandom): string[] {
  const across = [
    ['floor-front.L', 'rail-tip-lower.R'],
    ['floor-front.R', 'rail-tip-lower.L'],
  ] as const;
  return across.map(([from, to]) => {
    const true_ = distance(car.final.get(from)!, car.final.get(to)!);
    return `[${from}, ${to}, ${(true_ + random.normal(0.5)).toFixed(1)}]`;
  });
}

/** A job as text, open; every second one with a part replaced and two distances, every third one with damage that was answered. */
function shopOf(simulated: SimulatedJob, n: number): Shop {
  const { cell } = simulated;
  const { timeline } = simulated.job;
  const isReplaced = n % 2 === 0;
  const scope = scopeOf(simulated);
  if (isReplaced) scope.add('radiator-support');
  const distances = isReplaced ? distancesOf(simulated, jobRandom(7000 + n, cell.index)) : [];
  const last = timeline.length - 1;
  const entries = timeline.map((entry, i) => entryText(entry, i, i === last ? distances : []));
  const between = [
    ...(n % 3 === 0
      ? [
          '  - observe: buckle',
          '    part: apron.L',
          '    answered: { by: rk, date: 2026-03-02, how: dressed flat and checked }',
        ]
      : []),
    ...(isReplaced
      ? ['  - replace: radiator-support', '  - join: radiator-support', '    to: [front-rail]']
      : []),
  ];
  const job = [
    'framewright: readings/1',
    'chassis: ../specs/body.chassis.yaml',
    `order: S-${n}`,
    `instrument: { name: bench arm, serial: B-7, calibrated: 2026-01-12, uncertainty: ${cell.uncertaintyMm}, span-uncertainty: 0.5 }`,
    `scope: [${[...scope].join(', ')}]`,
    'timeline:',
    ...entries.slice(0, -1).flat(),
    ...between,
    ...entries[last],
    '',
  ].join('\n');
  return {
    [settingsPath]: 'framewright: settings/1\ncalibration-months: 12\n',
    [sheetPath]: sheetText(),
    [jobPath]: job,
  };
}

const signature =
  'sign-off:\n  by: rk\n  date: 2026-03-03\n  readings: seal1-0000000000000000\n  chassis: seal1-0000000000000000\n  judged-by: 0.2\n';

/** Signed by the program; where it refuses, closed by hand, so that the rules of a closed job are asked all the same. */
async function closed(shop: Shop): Promise<{ readonly shop: Shop; readonly refusal: string | null }> {
  let written: string | null = null;
  let said = '';
  await sign(
    filesOf(shop),
    { uri: root + jobPath, path: jobPath },
    {
      print: () => {},
      complain: (line) => {
        said = line;
      },
      by: 'rk',
      date: '2026-03-03',
      again: false,
      write: (text) => {
        written = text;
        return null;
      },
    },
  );
  if (written !== null) return { shop: { ...shop, [jobPath]: written }, refusal: null };
  return { shop: await sealedAnew({ ...shop, [jobPath]: shop[jobPath] + signature }), refusal: said };
}

/** What the new rules say of the job and its sheet, above information: `warning sign-off/no-scope`. */
async function newlySaid(shop: Shop): Promise<string[]> {
  const workspace = new Workspace(filesOf(shop));
  const said: string[] = [];
  for (const path of [jobPath, sheetPath]) {
    const analysis = await workspace.analysis(root + path);
    if (!('findings' in analysis)) throw new Error(analysis.message);
    for (const { rule, severity, ignored } of analysis.findings)
      if (ignored === null && severity !== 'information' && ruleNamed(rule)?.since !== '0.1')
        said.push(`${severity} ${rule}`);
  }
  return said;
}

interface SoundJob {
  /** Why the program did not sign it; null: it did. */
  readonly refusal: string | null;
  readonly said: readonly string[];
  /** The same job, its `scope` taken out and sealed anew. */
  readonly saidWithoutScope: readonly string[];
}

async function soundJob(simulated: SimulatedJob, n: number): Promise<SoundJob> {
  const { shop, refusal } = await closed(shopOf(simulated, n));
  const withoutScope = { ...shop, [jobPath]: shop[jobPath].replace(/^scope: .*\n/m, '') };
  return {
    refusal,
    said: await newlySaid(shop),
    saidWithoutScope: await newlySaid(await sealedAnew(withoutScope)),
  };
}

export interface SoundTally {
  readonly jobs: number;
  readonly signed: number;
  /** New errors, over all jobs. */
  readonly errors: number;
  /** Why the others were not. */
  readonly refusals: readonly string[];
  /** Jobs with a new warning, and the rules that warned. */
  readonly warned: number;
  readonly warnings: readonly string[];
  /** Jobs of which, without `scope`, that alone is said besides, once. */
  readonly onlyScope: number;
}

export async function talliedSound(jobs: number): Promise<SoundTally> {
  const all: SoundJob[] = [];
  for (const simulated of soundJobs()) {
    if (all.length === jobs) break;
    all.push(await soundJob(simulated, all.length));
  }
  return {
    jobs,
    signed: all.filter(({ refusal }) => refusal === null).length,
    refusals: all.flatMap(({ refusal }) => refusal ?? []),
    errors: all.flatMap(({ said }) => said).filter((each) => each.startsWith('error ')).length,
    warned: all.filter(({ said }) => said.length > 0).length,
    warnings: all.flatMap(({ said }) => said).sort(),
    onlyScope: all.filter(({ said, saidWithoutScope }) => isOneMore(said, saidWithoutScope)).length,
  };
}

/** The same is said, and besides it once that there is no scope. */
const isOneMore = (said: readonly string[], withoutScope: readonly string[]): boolean =>
  [...said, 'warning sign-off/no-scope'].sort().join() === [...withoutScope].sort().join();
