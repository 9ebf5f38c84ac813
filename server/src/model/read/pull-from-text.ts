import { forcePattern } from '@framewright/schemas';
import { entryOf, isNothing, type MapNode, type Node, textOf } from '../../text/tree';
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

/** Where the body is held; `mm`: millimetres in one unit of the file. `holdsUnclear`: some of it cannot be read. */
export function holdsOf(node: MapNode, mm: number): { holds: Hold[]; holdsUnclear: boolean } {
  const entry = entryOf(node, 'hold');
  const hold = entry?.value;
  const nodes = hold?.kind === 'sequence' ? hold.items : hold ? [hold] : [];
  const read = nodes.map((item) => holdOf(item, mm));
  return {
    holds: read.flat(),
    holdsUnclear: read.some((each) => each.length === 0) || (entry !== undefined && isNothing(hold)),
  };
}

function holdOf(item: Node, mm: number): Hold[] {
  if (item.kind === 'scalar') return mentionsIn(item).map((point) => ({ kind: 'point', point }));
  const part = entryOf(item, 'part')?.value;
  const at = writtenNumber(entryOf(item, 'at')?.value ?? null);
  if (part?.kind !== 'scalar' || isNothing(part) || at.value === null) return [];
  return [{ kind: 'part', part: { id: textOf(part), place: part.place }, atMm: at.value * mm }];
}
