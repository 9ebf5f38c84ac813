import {
  chassisSchema,
  isTimelineKind,
  readingsSchema,
  settingsSchema,
  timelineSchemas,
} from '@framewright/schemas';
import type { z } from 'zod';
import type { FileKind } from '../workspace/files';

const fileSchemas: Record<FileKind, z.ZodType> = {
  chassis: chassisSchema,
  readings: readingsSchema,
  settings: settingsSchema,
};

type Path = readonly (string | number)[];

/**
 * The schema that holds at a path, and the rest of the path below it: an entry of the timeline has the schema of its own kind, so
 * that `at` of a section is not that of a measure. @param entryKind the first key of the entry that a path into the timeline means
 */
export function schemaAbove(kind: FileKind, path: Path, entryKind: string): [z.ZodType, Path] {
  const isEntry = kind === 'readings' && path[0] === 'timeline' && path.length > 1;
  if (isEntry && isTimelineKind(entryKind)) return [timelineSchemas[entryKind], path.slice(2)];
  return [fileSchemas[kind], path];
}
