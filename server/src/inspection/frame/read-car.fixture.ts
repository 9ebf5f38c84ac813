import { seededRandom } from '../../../../tests/published/seeded-random';
import type { Vec3 } from '../../geometry/vector';
import { inspectionOf, jobOn } from '../../testing/car';
import type { Inspection } from '../job/inspect';

/** A car in the program's own text, read once: control points, what may testify (sills, pillars, rear rails), and what is judged. */

export const controlPlaces: Record<string, Vec3> = {
  'floor-front': [1200, 420, 95],
  'floor-rear': [-350, 455, 90],
  'toe-board': [1520, 360, 310],
  'rear-frame': [-720, 500, 265],
};
const otherPlaces: Record<string, readonly [part: string, place: Vec3]> = {
  'sill-front': ['sill', [1050, 700, 150]],
  'sill-rear': ['sill', [-250, 705, 150]],
  'pillar-low': ['pillar', [350, 720, 420]],
  'pillar-high': ['pillar', [300, 690, 1040]],
  'rear-rail-root': ['rear-rail', [-1100, 480, 300]],
  'rear-rail-tip': ['rear-rail', [-1900, 490, 410]],
  'rail-root': ['front-rail', [1800, 448, 270]],
  'rail-tip': ['front-rail', [2960, 448, 270]],
};
const parts = ['sill', 'pillar', 'rear-rail', 'front-rail'];

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
  const control = Object.entries(controlPlaces).map(
    ([name, place]) => `  ${view.named(name)}: { both: ${listed(view.at(place), view)}, base: true }`,
  );
  const others = Object.entries(otherPlaces).map(
    ([name, [part, place]]) =>
      `  ${view.named(name)}: { both: ${listed(view.at(place), view)}, part: ${view.named(part)} }`,
  );
  return `framewright: chassis/1
vehicle: Marten five-door hatchback
${view.mmPerUnit === 1 ? '' : 'units: inch\n'}${more}parts:
${parts.map((part) => `  ${view.named(part)}: { sided: true }`).join('\n')}
points:
${[...control, ...others].join('\n')}
`;
}

/** @param moved by id, mm; @param noiseMm the same small errors each time */
export function readingsText(moved: (id: string) => Vec3, noiseMm: number, view: View = plain): string {
  const random = seededRandom(8);
  const places = [
    ...Object.entries(controlPlaces),
    ...Object.entries(otherPlaces).map(([name, [, place]]) => [name, place] as const),
  ];
  const lines = places.flatMap(([name, place]) =>
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

export const isControl = (id: string): boolean => id.replace(/\.[LR]$/, '') in controlPlaces;
