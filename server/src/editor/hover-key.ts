import {
  chassisSchema,
  readingsSchema,
  settingsSchema,
  type TimelineKind,
  timelineKinds,
  timelineSchemas,
} from '@framewright/schemas';
import type { z } from 'zod';
import { descriptionsAt } from '../model/schema-shape';
import { offsetsOf } from '../text/tree';
import type { Analysis } from '../workspace/workspace';
import type { HoverText } from './hover-text';
import { escaped } from './markdown';
import { pathAt } from './places';

const schemas: Record<Analysis['kind'], z.ZodType> = {
  chassis: chassisSchema,
  readings: readingsSchema,
  settings: settingsSchema,
};

/** What a key means, from the schema. */
export function keyHover(analysis: Analysis, offset: number): HoverText | null {
  const { path, key } = pathAt(analysis.tree.root, offset);
  if (key === null) return null;
  const [schema, inner] = schemaFor(analysis, path);
  const description = descriptionsAt(schema, inner)[0];
  return description
    ? { markdown: `**${escaped(String(path[path.length - 1]))}**\n\n${description}`, range: offsetsOf(key) }
    : null;
}

/** An entry of the timeline has the schema of its own kind, so that `at` of a section is not that of a measure. */
function schemaFor(analysis: Analysis, path: (string | number)[]): [z.ZodType, (string | number)[]] {
  if (analysis.kind === 'readings' && path[0] === 'timeline' && typeof path[1] === 'number') {
    const timeline =
      analysis.tree.root?.kind === 'map'
        ? analysis.tree.root.entries.find((entry) => entry.key.value === 'timeline')?.value
        : null;
    const item = timeline?.kind === 'sequence' ? timeline.items[path[1]] : null;
    const kind = item?.kind === 'map' ? String(item.entries[0]?.key.value) : '';
    if ((timelineKinds as readonly string[]).includes(kind))
      return [timelineSchemas[kind as TimelineKind], path.slice(2)];
  }
  return [schemas[analysis.kind], path];
}
