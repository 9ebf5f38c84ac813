import { type Files, fileKind } from '../files';
import { isInside } from '../uris';

/** Files in memory, for tests. */
export function memoryFiles(texts: Record<string, string>, root: string | null = null): Files {
  return {
    read: async (uri) =>
      Object.hasOwn(texts, uri)
        ? { kind: 'text', text: texts[uri] }
        : { kind: 'missing', message: 'there is no such file' },
    list: async (folder, ignored) => ({
      uris: Object.keys(texts)
        .filter((uri) => isInside(uri, folder) && fileKind(uri) !== null)
        .filter((uri) => !ignored.some((name) => isInside(uri, `${folder.replace(/\/$/, '')}/${name}`)))
        .sort(),
      unread: [],
    }),
    root: async () => root,
    leadsOut: async () => false,
  };
}
