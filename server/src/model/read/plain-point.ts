import { fixings } from '@framewright/schemas';
import type { Vec3 } from '../../geometry/vector';
import type { MapEntry, Node, Place } from '../../text/tree';
import type { PointSheet } from '../chassis-sheet';
import type { Side } from '../names';
import { inVehicleAxes, orderOf, type PositionKey, positionSigns, type SheetNumbers } from '../sheet-axes';
import { plainNumber } from './numbers-as-written';

/** Where a point is: the keys that say it, and the sides that each stands for. */
export const positionKeys = ['both', 'left', 'right', 'centre'] as const;

const sidesOf: Record<PositionKey, readonly (Side | null)[]> = {
  both: ['L', 'R'],
  left: ['L'],
  right: ['R'],
  centre: [null],
};

/** What three numbers under a key say, as a point of each side that the key stands for: mm, in vehicle axes. */
export function positionsUnder(
  key: PositionKey,
  triple: Vec3,
  node: Node,
  { mm, axes }: SheetNumbers,
): PointSheet['positions'] {
  const [length, width, height] = orderOf(axes);
  const sorted: Vec3 = [triple[length] * mm, triple[width] * mm, triple[height] * mm];
  return sidesOf[key].map((side) => ({
    side,
    key,
    position: inVehicleAxes(sorted, positionSigns(axes, key, side)),
    node,
  }));
}

/**
 * A point in the plainest writing, as nearly all of a sheet are: where it is, its part, whether it is a control point and what is
 * touched there, all as the schema has them. Null for any other, which is the general way's to read and to judge.
 */
export function plainPoint(
  name: string,
  { key, value: node }: MapEntry,
  numbers: SheetNumbers,
): PointSheet | null {
  if (node?.kind !== 'map') return null;
  const given: Partial<Record<PositionKey, { triple: Vec3; node: Node }>> = {};
  let part: string | null = null;
  let partPlace: Place | null = null;
  let base = false;
  let fixing: string | null = null;
  for (const { key: each, value } of node.entries) {
    if (!each.plain || value === null) return null;
    switch (each.value) {
      case 'both':
      case 'left':
      case 'right':
      case 'centre': {
        const triple = plainTriple(value);
        if (triple === null) return null;
        given[each.value] = { triple, node: value };
        break;
      }
      case 'part':
        if (value.kind !== 'scalar' || typeof value.value !== 'string' || value.value === '') return null;
        part = value.value;
        partPlace = value.place;
        break;
      case 'base':
        if (value.kind !== 'scalar' || typeof value.value !== 'boolean') return null;
        base = value.value;
        break;
      case 'fixing':
        fixing = fixings.find((word) => value.kind === 'scalar' && word === value.value) ?? null;
        if (fixing === null) return null;
        break;
      default:
        return null;
    }
  }
  const { both, left, right, centre } = given;
  const ways = (both ? 1 : 0) + (left || right ? 1 : 0) + (centre ? 1 : 0);
  if (ways !== 1) return null;
  return {
    name,
    positions: positionKeys.flatMap((at) => {
      const found = given[at];
      return found ? positionsUnder(at, found.triple, found.node, numbers) : [];
    }),
    part,
    partPlace,
    base,
    limits: [null, null, null],
    fixing,
    uncertaintyMm: null,
    uncertaintyByAxisMm: null,
    source: null,
    place: key.place,
  };
}

function plainTriple(node: Node): Vec3 | null {
  if (node.kind !== 'sequence' || node.items.length !== 3) return null;
  const [x, y, z] = node.items;
  const length = plainNumber(x);
  const width = plainNumber(y);
  const height = plainNumber(z);
  return length === null || width === null || height === null ? null : [length, width, height];
}
