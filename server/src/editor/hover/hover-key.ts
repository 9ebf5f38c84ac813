import { descriptionsAt } from '../../model/read/schema-shape';
import { offsetsOf } from '../../text/tree';
import type { Analysis } from '../../workspace/workspace';
import { schemaAbove } from '../file-schema';
import { pathAt } from '../places';
import { timelineNode } from '../timeline-node';
import type { HoverText } from './hover-text';
import { escaped } from './markdown';

/** What a key means, from the schema. */
export function keyHover(analysis: Analysis, offset: number): HoverText | null {
  const { path, key } = pathAt(analysis.tree.root, offset);
  if (key === null) return null;
  const [schema, inner] = schemaAbove(analysis.kind, path, entryKindAt(analysis, path));
  const description = descriptionsAt(schema, inner)[0];
  return description
    ? { markdown: `**${escaped(String(path[path.length - 1]))}**\n\n${description}`, range: offsetsOf(key) }
    : null;
}

/** The first key of the entry of the timeline that a path leads into; '' elsewhere. */
function entryKindAt({ tree }: Analysis, path: readonly (string | number)[]): string {
  const item = typeof path[1] === 'number' ? timelineNode(tree.root)?.items[path[1]] : undefined;
  return item?.kind === 'map' ? String(item.entries[0]?.key.value) : '';
}
