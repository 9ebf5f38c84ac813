import { existsSync, type FSWatcher, readdirSync, statSync, watch } from 'node:fs';
import { basename, join, sep } from 'node:path';
import { neverLookedInto } from '../workspace/files';
import { codeOf, messageOf } from './error-code';
import { isBelow } from './list';

/** Which folders are watched. */
export interface Places {
  /** With all that lies below them. */
  readonly whole: readonly string[];
  /** Only for what lies in them. */
  readonly alone: ReadonlySet<string>;
}

/**
 * These systems tell of all below a folder. On others Node would watch each file by itself, and lose one over which another is moved, which is
 * how many editors save: there each folder is watched.
 */
const tellsOfAllBelow = process.platform === 'darwin' || process.platform === 'win32';

/** The check says these itself, or the folder is gone. */
const saidElsewhere = new Set(['ENOENT', 'ENOTDIR', 'EACCES', 'EPERM']);

/** Watches of folders that come and go. What happens in a new one before `follow` is not heard: whoever looks then sees it. */
export class WatchedFolders {
  private readonly watchers = new Map<string, FSWatcher>();
  private readonly errors = new Map<string, unknown>();

  /** @param heard the path at which something changed, and whether a folder may have come or gone there */
  constructor(
    private readonly places: Places,
    private readonly heard: (path: string, mayBeFolder: boolean) => void,
  ) {}

  /** Watches what is there now, and nothing else. @returns whether some of it was not watched before */
  follow(): boolean {
    this.errors.clear();
    const met = new Set<string>();
    let isMore = false;
    const visit = (folder: string): void => {
      if (met.has(folder)) return;
      met.add(folder);
      // first watched, then looked into: nothing comes in between
      if (this.begin(folder, true)) isMore = true;
      if (!tellsOfAllBelow) for (const name of foldersIn(folder)) visit(join(folder, name));
    };
    this.places.whole.forEach(visit);
    if (this.followAlone()) isMore = true;
    // also where the system dropped what it had to tell
    for (const folder of this.watchers.keys())
      if (!met.has(folder) && !this.places.alone.has(folder)) this.drop(folder);
    return isMore;
  }

  /** The same for those that are watched without what lies below. */
  followAlone(): boolean {
    let isMore = false;
    for (const folder of this.places.alone) {
      const isHeard = this.places.whole.some((whole) => isBelow(folder, whole));
      // its coming is heard by what is above it
      if (isHeard && !existsSync(folder)) continue;
      if (this.begin(folder, false)) isMore = true;
    }
    return isMore;
  }

  get hasUnwatched(): boolean {
    return this.errors.size > 0;
  }

  /** Why a folder is not watched, in words for a person; null where it is. */
  whyNot(folder: string): string | null {
    const error = this.errors.get(folder);
    return error === undefined ? null : `${folder} cannot be watched: ${messageOf(error)}`;
  }

  /** What nobody else tells a person of, in one line. */
  get unwatched(): string[] {
    const folders = [...this.errors].filter(([, error]) => !saidElsewhere.has(codeOf(error) ?? ''));
    if (folders.length === 0) return [];
    const more = folders.length > 1 ? `; nor can ${folders.length - 1} more` : '';
    return [`${this.whyNot(folders[0][0])}${more}: what changes there is not seen`];
  }

  end(): void {
    for (const watcher of this.watchers.values()) watcher.close();
    this.watchers.clear();
  }

  private begin(folder: string, isWhole: boolean): boolean {
    if (this.watchers.has(folder)) return false;
    try {
      const watcher = watch(folder, { recursive: isWhole && tellsOfAllBelow }, (kind, name) =>
        this.hear(folder, isWhole, kind, name),
      );
      watcher.on('error', () => this.lose(folder));
      this.watchers.set(folder, watcher);
      return true;
    } catch (error) {
      this.errors.set(folder, error);
      return false;
    }
  }

  private hear(folder: string, isWhole: boolean, kind: string, name: string | null): void {
    const path = name === null ? folder : join(folder, name);
    if (name?.split(sep).some((each) => neverLookedInto.has(each))) return;
    // a folder that is moved or removed says it of itself
    const isLost = name === null || (kind === 'rename' && name === basename(folder) && !existsSync(path));
    if (isLost) this.lose(folder);
    else {
      // a watch stays with the folder that had this name, not with the one that has it now
      if (kind === 'rename') this.drop(path);
      this.heard(path, isWhole && mayBeFolder(path));
    }
  }

  private lose(folder: string): void {
    this.drop(folder);
    this.heard(folder, true);
  }

  private drop(folder: string): void {
    if (!this.watchers.has(folder)) return;
    for (const [each, watcher] of this.watchers)
      if (isBelow(each, folder)) {
        watcher.close();
        this.watchers.delete(each);
      }
  }
}

/** Of what is gone nobody can say what it was. */
function mayBeFolder(path: string): boolean {
  try {
    return statSync(path, { throwIfNoEntry: false })?.isDirectory() ?? true;
  } catch {
    return true;
  }
}

/** Links are not followed; of a folder that cannot be read the check says so. */
function foldersIn(folder: string): string[] {
  try {
    return readdirSync(folder, { withFileTypes: true })
      .filter((entry) => entry.isDirectory() && !neverLookedInto.has(entry.name))
      .map(({ name }) => name);
  } catch {
    return [];
  }
}
