import { entryOf, type Place, type TextTree } from '../text/tree';
import type { FileKind } from '../workspace/files';
import { hasFolder, resolvedUri, schemeOf } from '../workspace/uris';

/** A path that leads to a chassis file. */
interface ChassisLink {
  readonly place: Place;
  /** As written. */
  readonly path: string;
  readonly uri: string;
}

/** `chassis` in a job, `extends` in a chassis file; null where there is none that leads anywhere. The head of a job is enough. */
export function chassisLink(kind: FileKind, uri: string, tree: TextTree): ChassisLink | null {
  if (kind === 'settings' || !hasFolder(uri)) return null;
  const value = entryOf(tree.root, kind === 'readings' ? 'chassis' : 'extends')?.value;
  if (value?.kind !== 'scalar' || typeof value.value !== 'string' || value.value === '') return null;
  const target = resolvedUri(uri, value.value);
  // a file's text must not lead out of the workspace to another protocol
  return schemeOf(target) === schemeOf(uri) ? { place: value.place, path: value.value, uri: target } : null;
}
