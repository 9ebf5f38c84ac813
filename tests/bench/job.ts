import { type SeededRandom, seededRandom } from '../published/seeded-random';
import type { Body, BodyPoint } from './body';

/** A job in data, from which both its texts are written. */
export interface Job {
  readonly header: Record<string, unknown>;
  readonly timeline: readonly Entry[];
}

interface Entry {
  readonly readings?: Readonly<Record<string, Triple>>;
  readonly [key: string]: unknown;
}

type Triple = readonly [number, number, number];

export interface JobWanted {
  /** Every measure reads every point of the body. */
  readonly measures: number;
  /** Of all readings, those that are to be out of tolerance: 0 to 0.1. */
  readonly outsideShare: number;
  readonly chassisPath: string;
  readonly seed: number;
}

const noiseMm = 0.15;

/** The same for the same wish. Sound, but for points on the left front rail and the apron, tip first, that were pushed inboard. */
export function inventedJob(body: Body, { measures, outsideShare, chassisPath, seed }: JobWanted): Job {
  const random = seededRandom(seed * 7919 + 17);
  const ids = body.points.flatMap((point) => (['L', 'R'] as const).map((side) => ({ point, side })));
  const pushed = pushedPoints(body, Math.round(outsideShare * ids.length));
  const [hook] = pushed.keys();
  const seen = instrumentFrame(random);
  const timeline: Entry[] = [];
  for (let measure = 0; measure < measures; measure++) {
    const readings: Record<string, Triple> = {};
    for (const { point, side } of ids) {
      const push = side === 'L' ? (pushed.get(point) ?? 0) : 0;
      const [forward, outboard, up] = point.reference;
      const left = side === 'L' ? outboard - push : -outboard;
      readings[`${point.name}.${side}`] = seen([forward, left, up], random);
    }
    timeline.push({ measure: measure === 0 ? 'as received' : `check ${measure}`, readings });
    if (measure % 4 === 0)
      timeline.push({ note: `measured twice at the cowl, the same both times; ${measure}` });
    if (measure % 4 === 1 && hook) timeline.push(...pullOn(hook));
  }
  return {
    header: {
      framewright: 'readings/1',
      chassis: chassisPath,
      order: `W-${3000 + seed}`,
      technician: 'jm',
      instrument: { name: 'bench arm 1', uncertainty: 0.3, repeatability: 0.2 },
      axes: ['forward', 'left', 'up'],
      base: 'auto',
    },
    timeline,
  };
}

/** A pull that is held, relieved and let go. */
const pullOn = ({ name, part }: BodyPoint): Entry[] => [
  {
    pull: 'left rail outboard',
    part: `${part}.L`,
    chains: [{ hook: `${name}.L`, direction: [0, 1, 0], force: '12 kN' }],
    hold: ['floor-front.L', 'floor-front.R'],
  },
  { relieve: `${part}.L` },
  { release: 'all' },
];

/** How far inboard, mm, each pushed point stands: 6 at the last of them, growing towards the tip. */
function pushedPoints(body: Body, count: number): Map<BodyPoint, number> {
  const rail = body.points.filter(({ part }) => part === 'front-rail').reverse();
  if (count > rail.length) throw new Error(`only ${rail.length} points can be out of tolerance`);
  return new Map(rail.slice(0, count).map((point, index) => [point, 6 + (count - 1 - index) * 0.8]));
}

/** The body as an instrument sees it that stands where it stands; to a tenth of a millimetre. */
function instrumentFrame(random: SeededRandom): (position: Triple, random: SeededRandom) => Triple {
  const yaw = random.uniform(-0.06, 0.06);
  const [x, y, z] = [random.uniform(200, 900), random.uniform(-80, 80), random.uniform(500, 800)];
  const [cos, sin] = [Math.cos(yaw), Math.sin(yaw)];
  return ([forward, left, up], noise) => {
    const read = [cos * forward - sin * left + x, sin * forward + cos * left + y, up + z];
    const [a, b, c] = read.map((value) => Number((value + noise.uniform(-noiseMm, noiseMm)).toFixed(1)));
    return [a, b, c];
  };
}

const tripleText = (triple: Triple): string => `[${triple.map((value) => value.toFixed(1)).join(', ')}]`;

/** A value on one line; an object has spaces inside its braces. */
function flowText(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(flowText).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return String(value);
  const pairs = Object.entries(value).map(([name, each]) => `${name}: ${flowText(each)}`);
  return `{ ${pairs.join(', ')} }`;
}

const line = ([key, value]: [string, unknown]): string => `${key}: ${flowText(value)}`;

/** As a technician would type it: a reading a line. */
export function yamlText({ header, timeline }: Job): string {
  const [first, ...rest] = Object.entries(header).map(line);
  const lines = [first, '# Invented, for the benchmark.', ...rest, '', 'timeline:'];
  for (const { readings, ...entry } of timeline) {
    lines.push(
      ...Object.entries(entry).map((pair, index) => `${index === 0 ? '  - ' : '    '}${line(pair)}`),
    );
    if (!readings) continue;
    lines.push('    readings:');
    for (const [id, triple] of Object.entries(readings)) lines.push(`      ${id}: ${tripleText(triple)}`);
  }
  return `${lines.join('\n')}\n`;
}

/** The same data as JSON, a reading a line as well. */
export function jsonText({ header, timeline }: Job): string {
  const entries = timeline.map(({ readings, ...entry }) => {
    if (!readings) return `    ${JSON.stringify(entry)}`;
    const rows = Object.entries(readings).map(([id, triple]) => `        "${id}": ${tripleText(triple)}`);
    const name = JSON.stringify(entry.measure);
    return `    {\n      "measure": ${name},\n      "readings": {\n${rows.join(',\n')}\n      }\n    }`;
  });
  const head = Object.entries(header).map(([key, value]) => `  "${key}": ${JSON.stringify(value)}`);
  return `{\n${head.join(',\n')},\n  "timeline": [\n${entries.join(',\n')}\n  ]\n}\n`;
}
