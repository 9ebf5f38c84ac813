/** The one way to files: the same code runs over a disk, a virtual workspace and memory. Files are named by URI. */
export interface Files {
  /** The text of a file as it stands now, byte-order mark included. */
  read(uri: string): Promise<ReadResult>;
  /** All files of ours below a folder, none where there is no such folder; folders named in `ignored` (relative to it) are left out. */
  list(folderUri: string, ignored: readonly string[]): Promise<Listing>;
  /** The folder that holds everything that belongs together with a file: its repository or workspace folder; null where there is none. */
  root(uri: string): Promise<string | null>;
  /** Whether links lead from a place below a folder to one that is not below it. */
  leadsOut(uri: string, folderUri: string): Promise<boolean>;
}

export interface Listing {
  /** Sorted. */
  readonly uris: string[];
  /** What may hold files of ours and was not looked into, in the order of its URIs. */
  readonly unread: readonly Unread[];
}

export interface Unread {
  readonly uri: string;
  /** Why, in words for a person. */
  readonly message: string;
}

export type ReadResult =
  | { readonly kind: 'text'; readonly text: string }
  | {
      readonly kind: 'missing' | 'folder' | 'too-large' | 'not-text' | 'unreadable';
      readonly message: string;
    };

/** Past this a file is not one of ours, characters. */
export const largestFile = 8 * 1024 * 1024;

/** Folders of these names hold no files of ours. */
export const neverLookedInto: ReadonlySet<string> = new Set(['node_modules', '.git', 'dist']);

export type FileKind = 'chassis' | 'readings' | 'settings';

/** Kind by name pattern; null where the name says nothing. */
export function fileKind(uri: string): FileKind | null {
  if (uri.endsWith('.chassis.yaml')) return 'chassis';
  if (uri.endsWith('.readings.yaml')) return 'readings';
  return /(^|\/)\.framewright\.yaml$/.test(uri) ? 'settings' : null;
}
