import { once } from '../memory/once';
import { ignoreEntries } from '../model/read/ignore-entries';
import type { Files, Listing } from './files';
import { ignoredBySettings, ignoredPlace, isPattern, pathBelow, saidByGitignore } from './ignore-patterns';
import { canonicalUri, folderOf, isInside } from './uris';

/** The folders that hold a file, nearest first, as far as what is said in them reaches: to its repository's, else to the top. */
function foldersAbove(uri: string, root: string | null): string[] {
  const folders: string[] = [];
  for (let folder = folderOf(uri); folders.length < deepest; folder = folderOf(folder)) {
    const isTop = folder.length < 'file:///'.length || folder === folders.at(-1);
    const isBeyond = folders.length > 0 && root !== null && !isInside(folder, root);
    if (isTop || isBeyond) break;
    folders.push(folder);
  }
  return folders;
}

const deepest = 40;

/** Settings files that would count for a file, nearest first, whether they are there or not. */
export async function settingsPlaces(files: Pick<Files, 'root'>, uri: string): Promise<string[]> {
  return foldersAbove(uri, await files.root(uri)).map((folder) => `${folder}.framewright.yaml`);
}

/** A file that is not looked for, and the kind of list that leaves it out. */
export interface LeftOut {
  readonly uri: string;
  readonly by: 'ignore' | '.gitignore';
}

/** Files of a folder that are looked for, and those that are not. */
export interface LookedFor extends Listing {
  /** Sorted; not all where nobody asked to be told. */
  readonly leftOut: readonly LeftOut[];
}

/**
 * What leaves a file out: a settings file in a folder above it, and where git is asked too a `.gitignore` of its repository. It is decided for
 * each file by itself, so that the answer is the same whichever folder the question is about.
 */
export class LeavingOut {
  private readonly settings = new Map<string, Promise<((uri: string) => boolean) | null>>();
  /** By folder, what is known for all files in it. */
  private readonly above = new Map<string, Promise<Above>>();
  private readonly lists = new Map<string, Promise<readonly Gitignore[]>>();
  private readonly folders = new Map<string, Promise<boolean>>();

  constructor(
    private readonly files: Pick<Files, 'read' | 'root'>,
    private readonly asksGit: boolean,
  ) {}

  async of(uri: string): Promise<LeftOut | null> {
    const folder = folderOf(uri);
    const { root, isIgnored, isGitignored } = await once(this.above, folder, () => this.lookAbove(uri));
    if (isIgnored.some((names) => names(uri))) return { uri, by: 'ignore' };
    const left = isGitignored || (this.asksGit && root !== null && (await this.isGitignored(uri, root)));
    return left ? { uri, by: '.gitignore' } : null;
  }

  private async lookAbove(uri: string): Promise<Above> {
    const root = await this.files.root(uri);
    const isIgnored: Above['isIgnored'][number][] = [];
    for (const folder of foldersAbove(uri, root)) {
      const names = await this.settingsIn(folder);
      if (names !== null) isIgnored.push(names);
    }
    const isGitignored =
      this.asksGit && root !== null && (await this.isFolderGitignored(folderOf(uri), root));
    return { root, isIgnored, isGitignored };
  }

  private settingsIn(folder: string): Promise<((uri: string) => boolean) | null> {
    const uri = `${folder}.framewright.yaml`;
    return once(this.settings, folder, async () => {
      const entries = await entriesAt(this.files, uri);
      return entries.length === 0 ? null : ignoredBySettings(uri, entries);
    });
  }

  private isFolderGitignored(folder: string, root: string): Promise<boolean> {
    return once(this.folders, folder, async () => {
      if (!isInside(folder, root) || canonicalUri(folder) === canonicalUri(root)) return false;
      return (
        (await this.isFolderGitignored(folderOf(folder), root)) || (await this.isGitignored(folder, root))
      );
    });
  }

  /** By the nearest list that says anything of it: nothing above it is left out. */
  private async isGitignored(uri: string, root: string): Promise<boolean> {
    const lists = await once(this.lists, folderOf(uri), () => this.gitignoresAbove(uri, root));
    for (const { folder, says } of lists) {
      const said = says(pathBelow(folder, uri));
      if (said !== null) return said;
    }
    return false;
  }

  private async gitignoresAbove(uri: string, root: string): Promise<readonly Gitignore[]> {
    const lists: Gitignore[] = [];
    for (const folder of foldersAbove(uri, root)) {
      const read = await this.files.read(`${folder}.gitignore`);
      if (read.kind === 'text') lists.push({ folder, says: saidByGitignore(read.text) });
    }
    return lists;
  }
}

interface Above {
  readonly root: string | null;
  readonly isIgnored: readonly ((uri: string) => boolean)[];
  /** The folder itself is left out. */
  readonly isGitignored: boolean;
}

interface Gitignore {
  readonly folder: string;
  readonly says: (path: string) => boolean | null;
}

/**
 * Our files below a folder, less those that are left out.
 * @param isTold on the command line: all that is left out is named, and `.gitignore` counts. Else ignored folders need not even be listed.
 */
export async function filesLookedFor(
  files: Pick<Files, 'list' | 'root' | 'read'>,
  folderUri: string,
  isTold: boolean,
): Promise<LookedFor> {
  const folder = folderUri.endsWith('/') ? folderUri : `${folderUri}/`;
  const leaving = new LeavingOut(files, isTold);
  const names = isTold ? [] : await foldersUnlisted(files, folder);
  const { uris: listed, unread: unreadThere } = await files.list(folderUri, names);
  const uris: string[] = [];
  const leftOut: LeftOut[] = [];
  for (const uri of listed) {
    const left = await leaving.of(uri);
    if (left === null) uris.push(uri);
    else leftOut.push(left);
  }
  const unread: Listing['unread'][number][] = [];
  for (const each of unreadThere) if ((await leaving.of(each.uri)) === null) unread.push(each);
  return { uris, unread, leftOut };
}

async function entriesAt(files: Pick<Files, 'read'>, uri: string): Promise<readonly string[]> {
  const read = await files.read(uri);
  return read.kind === 'text' ? ignoreEntries(read.text) : [];
}

/** By their paths below the folder. */
async function foldersUnlisted(files: Pick<Files, 'read' | 'root'>, folder: string): Promise<string[]> {
  const inFolder = `${folder}.framewright.yaml`;
  const names: string[] = [];
  for (const above of foldersAbove(inFolder, await files.root(inFolder))) {
    const uri = `${above}.framewright.yaml`;
    const entries = await entriesAt(files, uri);
    if (entries.some((entry) => entry.startsWith('!'))) continue;
    for (const entry of entries) {
      const place = isPattern(entry) ? null : ignoredPlace(uri, entry);
      if (place !== null && isInside(place, folder)) names.push(pathBelow(folder, place));
    }
  }
  return names;
}
