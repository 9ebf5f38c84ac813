import { EntryList, ParseState } from '../parse-state';
import { type MapEntry, type MapNode, type Node, placeBetween, type TextProblem } from '../tree';
import type { Chunk } from './chunks';

/** One tree from the chunks of a text; null where a chunk is not what its first line promised, so that the text must be read as a whole. */
export function assembled(
  chunks: readonly Chunk[],
  text: string,
): { root: MapNode; problems: TextProblem[] } | null {
  const state = new ParseState(text, []);
  const list = new EntryList(state);
  const problems: TextProblem[] = [];
  for (let i = 0; i < chunks.length; i++) {
    const chunk = chunks[i];
    for (const problem of chunk.problems) problems.push(problem);
    if (chunk.root?.kind !== 'map') return null;
    if (chunk.kind === 'key') {
      for (const entry of chunk.root.entries) list.add(entry);
      continue;
    }
    const items: Node[] = [];
    for (; chunks[i + 1]?.kind === 'item'; i++) {
      const item = chunks[i + 1];
      if (item.root?.kind !== 'sequence' || item.root.flow || item.root.items.length !== 1) return null;
      items.push(item.root.items[0]);
      for (const problem of item.problems) problems.push(problem);
    }
    const entry = timelineEntry(chunk, items, chunks[i]);
    if (entry === null) return null;
    list.add(entry);
  }
  const { entries } = list;
  for (const problem of state.problems.list) problems.push(problem);
  const root: MapNode = {
    kind: 'map',
    entries,
    flow: false,
    place: placeBetween(entries[0].place, entries[entries.length - 1].place),
  };
  return { root, problems };
}

/** `timeline:` with the entries below it. */
function timelineEntry(head: Chunk, items: readonly Node[], last: Chunk): MapEntry | null {
  const entries = head.root?.kind === 'map' ? head.root.entries : [];
  if (entries.length !== 1 || entries[0].value !== null || items.length === 0) return null;
  const { key } = entries[0];
  const indent = last.root?.kind === 'sequence' ? last.root.indent : undefined;
  const place = placeBetween(items[0].place, items[items.length - 1].place);
  return {
    key,
    value: { kind: 'sequence', items, flow: false, indent, place },
    place: placeBetween(key.place, place),
  };
}
