import { distance } from '../../geometry/vector';
import type { Axis, Chassis } from '../../model/chassis';
import { nameOf, sideOf } from '../../model/names';
import type { JudgedPoint } from '../alignment/points';
import { inQuestion } from '../frame/in-question';
import type { Inspection } from '../job/inspect';
import type { CarPoint } from './car';

/** Whether a car shows that it is sound where a point stands. */
export type Proof =
  | { readonly kind: 'sound' }
  /** These stand off, on its part or close to it. */
  | { readonly kind: 'moved'; readonly by: readonly JudgedPoint[] }
  /** Somebody saw, pulled or renewed something there. */
  | { readonly kind: 'in-question'; readonly part: string }
  /** Nothing that is known was read there. */
  | { readonly kind: 'unproven'; readonly inScope: boolean };

/** Chosen: so near a point that stands off speaks against one of no known part, mm. */
const besideMm = 300;
/** Chosen: standard deviations of a sound point that are put down to chance. */
const chance = 3;

/** The part that a name speaks of: `front-rail-hole.L` of `front-rail.L`; null where none does. */
export function partByName(id: string, { parts }: Pick<Chassis, 'parts'>): string | null {
  const [name, side] = [nameOf(id), sideOf(id)];
  const words = name.split('-');
  for (let n = words.length; n > 0; n--) {
    const part = words.slice(0, n).join('-');
    const own = side === null ? part : `${part}.${side}`;
    if (parts.has(own)) return own;
    if (parts.has(part)) return part;
  }
  return null;
}

/** What the points that the chassis knows say of the place of another. */
export function proofOf(
  point: CarPoint,
  { job, chassis, work }: Inspection,
  points: ReadonlyMap<string, CarPoint>,
): Proof {
  const part = chassis.points.get(point.id)?.part ?? partByName(point.id, chassis);
  // the scope alone says what is judged, not what is damaged
  const questioned = inQuestion({ ...job, scope: null }, chassis, work);
  if (part !== null && questioned.parts.has(part)) return { kind: 'in-question', part };
  const known = [...points.values()].filter((each) => each.known !== null && each.id !== point.id);
  const onPart = part === null ? [] : known.filter((each) => each.known?.point.part === part);
  const near = onPart.length > 0 ? onPart : known.filter((each) => isBeside(each, point));
  const judged = near.flatMap((each) => each.known ?? []);
  const off = judged.filter((each) => isOff(each, chassis));
  if (off.length > 0) return { kind: 'moved', by: off };
  if (onPart.length > 0 && judged.some(isDecided)) return { kind: 'sound' };
  const inScope = part !== null && (inQuestion(job, chassis, work).scope?.has(part) ?? false);
  return { kind: 'unproven', inScope };
}

const isBeside = (a: CarPoint, b: CarPoint): boolean => {
  const sides = [sideOf(a.id), sideOf(b.id)];
  return (sides[0] === sides[1] || sides.includes(null)) && distance(a.place, b.place) <= besideMm;
};

/** Over its limit, or farther than chance and the scatter of sound cars take it. */
function isOff(
  { deviation, uncertainty, point }: JudgedPoint,
  { buildMm, buildElsewhereMm }: Chassis,
): boolean {
  const scatter = point.base ? buildMm : buildElsewhereMm;
  return ([0, 1, 2] as const).some((k) => {
    const [d, u] = [deviation[k], uncertainty[k]];
    if (d === null || u === null) return false;
    const [low, high] = point.limits[k];
    return d < low || d > high || Math.abs(d) > chance * Math.hypot(u, scatter);
  });
}

/** Known well enough that it would show where it stood off by its limit. */
const isDecided = ({ uncertainty, point }: JudgedPoint): boolean =>
  ([0, 1, 2] as const).every((k: Axis) => {
    const [low, high] = point.limits[k];
    return uncertainty[k] !== null && uncertainty[k] < (high - low) / 2;
  });
