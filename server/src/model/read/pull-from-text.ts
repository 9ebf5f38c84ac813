import { forcePattern } from '@framewright/schemas';
import { entryOf, isNothing, type MapNode, textOf } from '../../text/tree';
import type { Chain, Hold } from '../job';
import { mentionsIn } from './mentions';
import { writtenNumber } from './numbers-as-written';
import { tripleOf } from './triple';

/** What hooks and directions there are, though a force or a title beside them be wrong: a pull that is lost would leave tension unseen. */
export function chainsOf(node: MapNode): Chain[] {
  const list = entryOf(node, 'chains')?.value;
  const nodes =
    list?.kind === 'sequence'
      ? list.items
      : list?.kind === 'map'
        ? [list]
        : entryOf(node, 'hook')
          ? [node]
          : [];
  return nodes.flatMap((item) => {
    const hook = entryOf(item, 'hook')?.value;
    if (hook?.kind !== 'scalar' || typeof hook.value !== 'string') return [];
    const direction = tripleOf(entryOf(item, 'direction')?.value ?? null, '', () => {});
    const force = entryOf(item, 'force')?.value;
    return [
      {
        hook: { id: hook.value, place: hook.place },
        direction: direction?.some((component) => component !== 0) ? direction : null,
        forceKn: force?.kind === 'scalar' ? kilonewtons(textOf(force)) : null,
        place: item === node ? (entryOf(node, 'hook')?.place ?? node.place) : item.place,
      },
    ];
  });
}

function kilonewtons(text: string): number | null {
  const found = forcePattern.exec(text.trim());
  if (found === null) return null;
  const [, figure, unit] = found;
  return unit === 'kN' ? Number(figure) : Number(figure) / 1000;
}

/** Where the body is held; `mm`: millimetres in one unit of the file. */
export function holdsOf(node: MapNode, mm: number): Hold[] {
  const hold = entryOf(node, 'hold')?.value;
  const nodes = hold?.kind === 'sequence' ? hold.items : hold ? [hold] : [];
  return nodes.flatMap((item): Hold[] => {
    if (item.kind === 'scalar') return mentionsIn(item).map((point) => ({ kind: 'point', point }));
    const part = entryOf(item, 'part')?.value;
    const at = writtenNumber(entryOf(item, 'at')?.value ?? null);
    if (part?.kind !== 'scalar' || isNothing(part) || at.value === null) return [];
    return [{ kind: 'part', part: { id: textOf(part), place: part.place }, atMm: at.value * mm }];
  });
}
