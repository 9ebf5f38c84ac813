import { martenWith, type Place, type PointName, placeOf } from './marten';

/**
 * The Marten for the tests of the procedure and of the sign-off, and the words to write jobs about it: control points, five stations of
 * the rail ahead of them, a pillar and a sill beside. The instrument stands in the car's own axes, so a reading is the reference plus
 * what is stated, and every figure can be seen by eye.
 */
const base: readonly PointName[] = ['floor-front', 'floor-rear', 'tunnel-front', 'cowl-hole'];
const rail: readonly PointName[] = [
  ...(['rail-root-lower', 'rail-second-lower', 'rail-middle-lower', 'rail-front-lower'] as const),
  'rail-tip-lower',
];
const beside: readonly PointName[] = ['pillar-low', 'pillar-high', 'sill-front', 'sill-rear'];
const names = [...base, ...rail, ...beside];

/** The body; `facts` replaces what is recorded of its parts. */
export const chassisWith = (facts: Readonly<Record<string, string>> = {}): string => martenWith(names, facts);

/** What is off from the reference at a point, forward, left and up in mm. */
export type Damage = (id: string, reference: Place) => Place;

export const sound: Damage = () => [0, 0, 0];

/** The left rail bent to the right from a place on. */
export const bentFrom =
  (fromMm: number, slope = -0.04): Damage =>
  (id, [x]) =>
    id.startsWith('rail') && id.endsWith('.L') ? [0, slope * Math.max(0, x - fromMm), 0] : [0, 0, 0];

/** Some points off, the rest in place. */
export const off =
  (shifts: Readonly<Record<string, Place>>): Damage =>
  (id) =>
    shifts[id] ?? [0, 0, 0];

const bothSides = (of: readonly PointName[]): string[] => of.flatMap((name) => [`${name}.L`, `${name}.R`]);
export const control = bothSides(base);
export const everything = bothSides(names);
export const railIds = (side: 'L' | 'R'): string[] => rail.map((name) => `${name}.${side}`);

const positions = new Map<string, Place>(
  names.flatMap((name) => {
    const [x, y, z] = placeOf(name);
    return [
      [`${name}.L`, [x, y, z]],
      [`${name}.R`, [x, -y, z]],
    ] as const;
  }),
);

function row(id: string, damage: Damage): string {
  const position = positions.get(id) ?? [0, 0, 0];
  const shift = damage(id, position);
  return `      ${id}: [${position.map((each, k) => Number((each + shift[k]).toFixed(3))).join(', ')}]`;
}

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
