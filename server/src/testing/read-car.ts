import { seededRandom } from '../../../tests/published/seeded-random';
import type { Vec3 } from '../geometry/vector';
import type { Inspection } from '../inspection/job/inspect';
import { inspectionOf, jobOn } from './car';
import { type Place, partOf, placeOf } from './marten';

/** The whole Marten, read once: control points, what may testify (sills, pillars, rear rails), and what is judged. */

const control = ['floor-front', 'floor-rear', 'toe-board', 'rear-frame'] as const;
const others = [
  ...([
    'sill-front',
    'sill-rear',
    'pillar-low',
    'pillar-high',
    'rear-rail-tip',
    'rear-rail-extension',
  ] as const),
  ...(['rail-root-lower', 'rail-tip-lower'] as const),
];
const places: Readonly<Record<string, Place>> = Object.fromEntries(
  [...control, ...others].map((name) => [name, placeOf(name)]),
);
export const controlNames: readonly string[] = control;

/** What the same car may be called or turned into. */
export interface View {
  /** A place of its left side. */
  readonly at: (place: Vec3) => Vec3;
  /** A displacement. */
  readonly of: (by: Vec3) => Vec3;
  readonly swapsSides: boolean;
  readonly named: (name: string) => string;
  readonly mmPerUnit: number;
}
export const plain: View = {
  at: (place) => place,
  of: (by) => by,
  swapsSides: false,
  named: (name) => name,
  mmPerUnit: 1,
};
const lettersTurned = (name: string): string =>
  name.replace(/[a-z]/g, (letter) => String.fromCharCode(219 - letter.charCodeAt(0)));
export const views: Record<string, View> = {
  mirrored: { ...plain, of: ([x, y, z]) => [x, -y, z], swapsSides: true },
  'end for end': {
    ...plain,
    at: ([x, y, z]) => [-x, y, z],
    of: ([x, y, z]) => [-x, -y, z],
    swapsSides: true,
  },
  'with other names': { ...plain, named: lettersTurned },
  'in inches': { ...plain, mmPerUnit: 25.4 },
};

/** Of a point in that view. */
export const idIn = (view: View, id: string): string => {
  const [name, side] = id.split('.');
  return `${view.named(name)}.${view.swapsSides ? (side === 'L' ? 'R' : 'L') : side}`;
};

const listed = (values: Vec3, { mmPerUnit }: View): string =>
  `[${values.map((mm) => (mm / mmPerUnit).toFixed(6)).join(', ')}]`;

/** @param more further lines of the head */
export function chassisText(view: View = plain, more = ''): string {
  const points = [...control, ...others].map(
    (name) =>
      `  ${view.named(name)}: { both: ${listed(view.at(placeOf(name)), view)}, ${
        isControl(name) ? 'base: true' : `part: ${view.named(partOf(name))}`
      } }`,
  );
  return `framewright: chassis/1
vehicle: Marten five-door hatchback
${view.mmPerUnit === 1 ? '' : 'units: inch\n'}${more}parts:
${[...new Set(others.map(partOf))].map((part) => `  ${view.named(part)}: { sided: true }`).join('\n')}
points:
${points.join('\n')}
`;
}

/** @param moved by id, mm; @param noiseMm the same small errors each time */
export function readingsText(moved: (id: string) => Vec3, noiseMm: number, view: View = plain): string {
  const random = seededRandom(8);
  const lines = Object.entries(places).flatMap(([name, place]) =>
    (['L', 'R'] as const).map((side) => {
      const [x, y, z] = view.at(place);
      const id = `${name}.${side}`;
      const by = moved(id);
      const off = (k: 0 | 1 | 2) => by[k] + random.normal(noiseMm);
      const read: Vec3 = [off(0), off(1), off(2)];
      const [dx, dy, dz] = view.of(read);
      const seen = idIn(view, id);
      return `      ${seen}: ${listed([x + dx, (seen.endsWith('.L') ? y : -y) + dy, z + dz], view)}`;
    }),
  );
  return `  - measure: as received\n    readings:\n${lines.join('\n')}`;
}

export function headText(more = 'scope: [front-rail]', view: View = plain): string {
  const scope = more.replace(/front-rail/g, view.named('front-rail'));
  return `${view.mmPerUnit === 1 ? '' : 'units: inch\n'}instrument: { name: arm, uncertainty: ${(0.3 / view.mmPerUnit).toFixed(8)} }\n${scope}`;
}

export function readCar(
  moved: (id: string) => Vec3,
  {
    view = plain,
    head = 'scope: [front-rail]',
    timeline = '',
    noiseMm = 0.4,
    chassis = chassisText(view),
  } = {},
): Inspection {
  return inspectionOf(jobOn(timeline + readingsText(moved, noiseMm, view), headText(head, view)), chassis);
}

export const isControl = (id: string): boolean => controlNames.includes(id.replace(/\.[LR]$/, ''));
export const placeOfId = (id: string): Place => places[id.replace(/\.[LR]$/, '')];
