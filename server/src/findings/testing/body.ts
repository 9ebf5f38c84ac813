import { expect } from 'vitest';
import { analysed, type Expected, foundIn } from './analysed';

/**
 * For the tests of the procedure and sign-off rules: one small body and the words to write jobs about it. The instrument stands in
 * the car's own axes, so a reading is the reference plus what is stated, and every figure can be seen by eye.
 */
type Triple = readonly [number, number, number];

/** Left positions; width is outboard. Control points on the floor, a rail with six stations ahead of them, a pillar beside. */
const places = {
  'floor-front': [600, 400, 0],
  'floor-middle': [0, 420, 40],
  'floor-rear': [-600, 400, 0],
  'floor-high': [100, 600, 500],
  'rail-1': [1000, 400, 100],
  'rail-2': [1300, 400, 100],
  'rail-3': [1600, 400, 100],
  'rail-4': [1900, 400, 100],
  'rail-5': [2200, 400, 100],
  'rail-6': [2500, 400, 100],
  'pillar-low': [200, 700, 600],
  'pillar-high': [200, 650, 1100],
  'sill-front': [500, 700, 60],
  'sill-rear': [-500, 700, 60],
} as const satisfies Record<string, Triple>;

type Name = keyof typeof places;

const isControl = (name: string): boolean => name.startsWith('floor');
const names = Object.keys(places) as Name[];

const point = (name: Name): string =>
  `  ${name}: { both: [${places[name].join(', ')}], part: ${name.split('-')[0]}${isControl(name) ? ', base: true' : ''} }`;

/** The body; `parts` replaces what is recorded of its parts. */
export const chassisWith = (parts: Record<string, string> = {}): string => {
  const recorded: Record<string, string> = {
    floor: '{ steel: mild, straighten: freely }',
    rail: '{ sided: true, steel: ultra-high-strength, straighten: minor, section: [1400, 2000], heat: never, reference: manual 31 }',
    pillar:
      '{ sided: true, along: height, steel: press-hardened, straighten: never, heat: { to: 200 C, for: 90 s } }',
    sill: '{ sided: true, steel: high-strength, straighten: minor, section: [-300, 300], heat: { to: 200 C } }',
    ...parts,
  };
  return [
    'framewright: chassis/1',
    'vehicle: Marten',
    'source: { kind: published, reference: sheet 4 }',
    'parts:',
    ...Object.entries(recorded).map(([name, value]) => `  ${name}: ${value}`),
    'points:',
    ...names.map(point),
    '',
  ].join('\n');
};

/** What is off from the reference at a point, forward, left and up in mm. */
export type Damage = (id: string, reference: Triple) => Triple;

export const sound: Damage = () => [0, 0, 0];

/** The left rail bent to the right from a place on. */
export const bentFrom =
  (fromMm: number, slope = -0.04): Damage =>
  (id, [x]) =>
    id.startsWith('rail') && id.endsWith('.L') ? [0, slope * Math.max(0, x - fromMm), 0] : [0, 0, 0];

/** Some points off, the rest in place. */
export const off =
  (shifts: Record<string, Triple>): Damage =>
  (id) =>
    shifts[id] ?? [0, 0, 0];

const positionOf = (id: string): Triple => {
  const [x, y, z] = places[id.slice(0, -2) as Name];
  return [x, id.endsWith('.L') ? y : -y, z];
};

export const control = names.filter(isControl).flatMap((name) => [`${name}.L`, `${name}.R`]);
export const everything = names.flatMap((name) => [`${name}.L`, `${name}.R`]);

const row = (id: string, damage: Damage): string => {
  const position = positionOf(id);
  const shift = damage(id, position);
  return `      ${id}: [${position.map((each, k) => Number((each + shift[k]).toFixed(3))).join(', ')}]`;
};

/** A measure of these points as an entry of the timeline. */
export const measure = (name: string, damage: Damage = sound, ids: readonly string[] = everything): string =>
  [`  - measure: ${name}`, '    readings:', ...ids.map((id) => row(id, damage))].join('\n');

/** A job file about the body. */
export const job = (timeline: string, head = '', signOff = ''): string =>
  `framewright: readings/1
chassis: body.chassis.yaml
instrument: { uncertainty: 0.1 }
${head}timeline:
${timeline.replace(/^\n/, '').trimEnd()}
${signOff}`;

/** A job about the body. */
export const jobFiles = (text: string, chassis = chassisWith()): Record<string, string> => ({
  'body.chassis.yaml': chassis,
  'job.readings.yaml': text,
});

/** What a rule finds in a job, beside what the job's marks expect; the job itself has to be well written. */
export async function rule(
  name: string,
  text: string,
  chassis = chassisWith(),
): Promise<{ found: Expected[]; expected: Expected[] }> {
  const files = jobFiles(text, chassis);
  const { findings } = await analysed(files, 'job.readings.yaml');
  expect(findings.filter((each) => /^(text|name)\//.test(each.rule)).map((each) => each.message)).toEqual([]);
  return foundIn(files, 'job.readings.yaml', name);
}
