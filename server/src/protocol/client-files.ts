import type { FileText, FileUris } from '@framewright/schemas/wire';
import type { Connection } from 'vscode-languageserver';
import type { Files } from '../workspace/files';
import { isInside } from '../workspace/uris';

/** Files of an editor that has them and a server that has no disk: asked for by `framewright/readFile` and `framewright/listFiles`. */
export function clientFiles(connection: Connection): Files {
  return {
    read: async (uri) => {
      const { text } = await connection.sendRequest<FileText>('framewright/readFile', { uri });
      return text === null ? { kind: 'missing', message: 'there is no such file' } : { kind: 'text', text };
    },
    list: async (folder, ignored) => {
      const { uris } = await connection.sendRequest<FileUris>('framewright/listFiles', {});
      const left = ignored.map((name) => `${folder.replace(/\/$/, '')}/${name}`);
      const found = uris.filter((uri) => isInside(uri, folder) && !left.some((each) => isInside(uri, each)));
      return { uris: found.sort(), unread: [] };
    },
    root: async () => null,
    leadsOut: async () => false,
  };
}

/** Files of a disk, and through the editor those that no disk has, whatever folder is opened when. */
export function filesByScheme(disk: Files, virtual: Files): Files {
  const of = (uri: string): Files => (uri.startsWith('file:') ? disk : virtual);
  return {
    read: (uri) => of(uri).read(uri),
    list: (folder, ignored) => of(folder).list(folder, ignored),
    root: (uri) => of(uri).root(uri),
    leadsOut: (uri, folder) => of(uri).leadsOut(uri, folder),
  };
}

/** The same files, with the editor's workspace folders as what belongs together. */
export function withRoots(files: Files, roots: () => readonly string[]): Files {
  return {
    ...files,
    root: async (uri) => {
      const holding = roots().filter((root) => isInside(uri, root));
      // the outermost: a folder opened inside a repository may use what stands above it
      return (await files.root(uri)) ?? holding.sort((a, b) => a.length - b.length)[0] ?? null;
    },
  };
}
