import { decoded } from '../model/file-name';
import { printable } from '../text/printable';
import { type Files, fileKind } from '../workspace/files';
import { filesLookedFor, type LeftOut } from '../workspace/ignored';
import { relativePath } from '../workspace/uris';

/** A file to look at, and how the command line named it. */
export interface Target {
  readonly uri: string;
  readonly path: string;
}

interface Collected {
  readonly targets: readonly Target[];
  /** What was not looked at, a line each: then the answer is not a whole one. */
  readonly unread: readonly string[];
  /** What is not looked at on purpose. */
  readonly leftOut: readonly LeftOutTarget[];
}

export interface LeftOutTarget extends Target {
  readonly by: LeftOut['by'];
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
  if (fileKind(uri) !== null) return { targets: [{ uri, path }], unread: [], leftOut: [] };
  return unread(
    `${path}: not a Framewright file: the name must end in .chassis.yaml or .readings.yaml, or be .framewright.yaml`,
  );
}

const unread = (line: string): Collected => ({ targets: [], unread: [printable(line)], leftOut: [] });

async function inFolder(files: Files, folder: string, path: string): Promise<Collected> {
  const listing = await filesLookedFor(files, folder, true);
  if (listing.uris.length + listing.unread.length + listing.leftOut.length === 0)
    return unread(`${path}: no *.chassis.yaml or *.readings.yaml below this folder`);
  const pathOf = (uri: string): string => joined(path, decoded(uri.slice(folder.length)));
  const leftOut = listing.leftOut.map(({ uri, by }) => ({ uri, path: pathOf(uri), by }));
  if (listing.uris.length + listing.unread.length === 0)
    return {
      ...unread(
        `${path}: all files below this folder are left out by ${ways(leftOut)}; a file that you name yourself is checked`,
      ),
      leftOut,
    };
  return {
    targets: listing.uris.map((uri) => ({ uri, path: pathOf(uri) })),
    unread: listing.unread.map(({ uri, message }) => printable(`${pathOf(uri)}: ${message}`)),
    leftOut,
  };
}

const waysToLeaveOut = ['ignore', '.gitignore'] as const;

const ways = (leftOut: readonly LeftOutTarget[]): string =>
  waysToLeaveOut.filter((way) => leftOut.some(({ by }) => by === way)).join(' and ');

/** So many names of files that are left out are printed. */
const mostNamed = 5;

/** What is left out, a line for each way to do it: whoever hides a file from a check is seen to do it. */
export const leftOutLines = (leftOut: readonly LeftOutTarget[]): string[] =>
  waysToLeaveOut.flatMap((way) => {
    const paths = leftOut.filter(({ by }) => by === way).map(({ path }) => printable(path));
    if (paths.length === 0) return [];
    const more = paths.length > mostNamed ? ` and ${paths.length - mostNamed} more` : '';
    const some = paths.length === 1 ? '1 file' : `${paths.length} files`;
    return `framewright: ${some} left out by ${way}: ${paths.slice(0, mostNamed).join(', ')}${more}`;
  });

const joined = (path: string, rest: string): string =>
  rest === '' ? path : path === '.' ? rest : `${path.replace(/(?<![\\/])[\\/]+$/, '')}/${rest}`;

/** Another file, as it would be typed beside this one. */
export function pathBeside({ uri, path }: Target, other: string): string {
  const relative = relativePath(uri, other).split('/');
  const folders = path.split('/').slice(0, -1);
  while (relative[0] === '..' && folders.length > 0 && folders.at(-1) !== '..') {
    relative.shift();
    folders.pop();
  }
  return [...folders, ...relative.filter((each) => each !== '.')].join('/');
}
