import type { Inspection } from '../../inspection/job/inspect';
import { withoutSides } from '../../inspection/job/scope';
import { fewestToRead } from '../advice-words';
import { shortList } from '../wording';

/** Which control points are read with every reading off load, for some parts to be decided; null where none are known. */
export function controlText(inspection: Inspection, partIds: readonly string[]): string | null {
  const fewest = fewestToRead(inspection, partIds);
  if (fewest !== null) return `With every reading off load read ${fewest}.`;
  const ids = inspection.stages.at(-1)?.alignment?.baseIds ?? [];
  return ids.length === 0
    ? null
    : `With every reading off load read all ${ids.length} control points: ${shortList(withoutSides(ids), 12)}.`;
}
