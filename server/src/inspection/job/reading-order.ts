import { derived } from '../../memory/derived';
import type { Chassis } from '../../model/chassis';
import { nameOf } from '../../model/names';

/** The order in which the points of a body are read: control points first, both sides of a name together, else as on the sheet. */
export const readingOrder = derived((chassis: Chassis): readonly string[] => {
  const names = new Map<string, string[]>();
  for (const { id } of chassis.points.values()) names.set(nameOf(id), [...(names.get(nameOf(id)) ?? []), id]);
  const isControl = (ids: readonly string[]): boolean => ids.some((id) => chassis.points.get(id)?.base);
  const groups = [...names.values()];
  return [...groups.filter(isControl), ...groups.filter((ids) => !isControl(ids))].flat();
});
