import type { TimelineEntry } from '../model/job';
import { entryOf, type MapNode, type Node, offsetsOf, type SequenceNode } from '../text/tree';

/** The list under `timeline:`; null where there is none. */
export function timelineNode(root: Node | null): SequenceNode | null {
  const timeline = entryOf(root, 'timeline')?.value;
  return timeline?.kind === 'sequence' ? timeline : null;
}

/** The text node of an entry. */
export function entryNode(root: Node | null, entry: TimelineEntry): MapNode | null {
  const { start } = offsetsOf(entry.place);
  const item = timelineNode(root)?.items.find((each) => offsetsOf(each.place).start === start);
  return item?.kind === 'map' ? item : null;
}
