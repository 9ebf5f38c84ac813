import { decoded } from '../model/file-name';
import { printable } from '../text/printable';
import { type Files, fileKind } from '../workspace/files';
import { Workspace } from '../workspace/workspace';

/** A file to look at, and how the command line named it. */
export interface Target {
  readonly uri: string;
  readonly path: string;
}

interface Collected {
  readonly targets: readonly Target[];
  /** What was not looked at, a line each: then the answer is not a whole one. */
  readonly unread: readonly string[];
}

/** What a path given on the command line stands for: a file, ignored or not, or all files of ours below a folder that settings do not ignore. */
export async function collected(files: Files, uri: string, path: string): Promise<Collected> {
  try {
    const read = await files.read(uri);
    if (read.kind === 'folder') return await inFolder(files, uri.endsWith('/') ? uri : `${uri}/`, path);
    if (read.kind !== 'text') return unread(`${path}: ${read.message}`);
  } catch (error) {
    return unread(`${path}: it cannot be read (${error instanceof Error ? error.message : String(error)})`);
  }
  if (fileKind(uri) !== null) return { targets: [{ uri, path }], unread: [] };
  return unread(
    `${path}: not a Framewright file: the name must end in .chassis.yaml or .readings.yaml, or be .framewright.yaml`,
  );
}

const unread = (line: string): Collected => ({ targets: [], unread: [printable(line)] });

async function inFolder(files: Files, folder: string, path: string): Promise<Collected> {
  const listing = await new Workspace(files).lookedFor(folder);
  if (listing.uris.length === 0 && listing.unread.length === 0)
    return unread(
      listing.leavesOut
        ? `${path}: all files below this folder are ignored by .framewright.yaml; a file that you name yourself is checked`
        : `${path}: no *.chassis.yaml or *.readings.yaml below this folder`,
    );
  const pathOf = (uri: string): string => joined(path, decoded(uri.slice(folder.length)));
  return {
    targets: listing.uris.map((uri) => ({ uri, path: pathOf(uri) })),
    unread: listing.unread.map(({ uri, message }) => printable(`${pathOf(uri)}: ${message}`)),
  };
}

const joined = (path: string, rest: string): string =>
  rest === '' ? path : path === '.' ? rest : `${path.replace(/(?<![\\/])[\\/]+$/, '')}/${rest}`;
