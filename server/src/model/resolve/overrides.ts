import { type AxisLimits, axes } from '../chassis';
import type { ChassisSheet, LimitsInForce, PointSheet } from '../chassis-sheet';
import type { Overridden, Overrides, Widened } from '../overrides';
import { defaultLimits, isWider, limitsFrom, limitsOn } from './limits-in-force';

interface Given {
  readonly sheet: PointSheet;
  readonly uri: string;
  readonly limits: LimitsInForce;
}

/** What a file changes of its parents. @param sheets the file itself first, then its parent, and so on */
export function overridesOf(sheets: readonly ChassisSheet[]): Overrides {
  if (sheets.length === 1) return { overridden: [], fileTolerance: null, widened: [] };
  const first = new Map<string, AxisLimits>();
  const current = new Map<string, Given>();
  const overridden: Overridden[] = [];
  let inForce = defaultLimits;
  let before = defaultLimits;
  for (let i = sheets.length - 1; i >= 0; i--) {
    const { tolerance, points, unread, uri } = sheets[i];
    before = inForce;
    inForce = limitsFrom(tolerance, inForce);
    for (const name of unread.points) current.delete(name);
    for (const [name, sheet] of points) {
      const old = current.get(name);
      if ('removed' in sheet) {
        current.delete(name);
        continue;
      }
      const limits = limitsFrom(sheet.limits, inForce);
      if (i === 0 && old !== undefined) overridden.push(overriddenOf(sheet, limits, old));
      current.set(name, { sheet, uri, limits });
      for (const position of sheet.positions) {
        const id = idOf(name, position.side);
        if (!first.has(id)) first.set(id, limitsOn(position, limits));
      }
    }
  }
  return {
    overridden,
    fileTolerance: { now: inForce, before, uri: sheets[1].uri },
    widened: [...current.values()].flatMap((given) => widenedOf(given, first)),
  };
}

const idOf = (name: string, side: string | null): string => (side === null ? name : `${name}.${side}`);

const overriddenOf = (sheet: PointSheet, limits: LimitsInForce, old: Given): Overridden => ({
  name: sheet.name,
  place: sheet.place,
  keys: sheet.positions.map(({ key }) => key),
  limits,
  before: {
    part: old.sheet.part,
    base: old.sheet.base,
    fixing: old.sheet.fixing,
    place: old.sheet.place,
    uri: old.uri,
    own: old.sheet.limits,
    limits: old.limits,
  },
});

const widenedOf = ({ sheet, limits }: Given, first: ReadonlyMap<string, AxisLimits>): Widened[] =>
  sheet.positions.flatMap((position) => {
    const id = idOf(sheet.name, position.side);
    const now = limitsOn(position, limits);
    const before = first.get(id)!;
    return axes.flatMap((axis) =>
      isWider(now[axis], before[axis]) ? [{ id, axis, before: before[axis], now: now[axis] }] : [],
    );
  });
