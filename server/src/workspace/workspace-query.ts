import type { Job } from '../model/job';
import type { ReadResult } from './files';
import { canonicalUri, hasFolder, isInside, resolvedUri } from './uris';
import type { Workspace } from './workspace';

/** Called between two files; throws where nobody waits for the answer any more. */
type Pause = () => void | Promise<void>;

const noPause: Pause = () => {};

/**
 * One question to all files that belong together. It reads them one after the other and keeps of each no more than which
 * files it was made from; a new question needs a new query, as files change.
 */
export class WorkspaceQuery {
  private readonly chains = new Map<string, readonly string[]>();
  private readonly spellings: ReadonlyMap<string, string>;

  /** @param folders of the editor */
  constructor(
    readonly workspace: Workspace,
    private readonly folders: readonly string[],
    private readonly pause: Pause = noPause,
  ) {
    this.spellings = new Map(workspace.openUris().map((uri) => [canonicalUri(uri), uri]));
  }

  /** As the editor spells it where it has the file open. */
  spelled(uri: string): string {
    return this.spellings.get(canonicalUri(uri)) ?? uri;
  }

  /**
   * Every file of ours: in the editor's folders, in those that hold everything that belongs together with some files, and open ones.
   * @param whole with what the settings ignore
   */
  async uris(around: readonly string[] = [], whole = true): Promise<string[]> {
    const roots = await Promise.all(around.map((uri) => this.workspace.rootOf(uri)));
    const all = [...new Set([...this.folders, ...roots.filter((root) => root !== null)])];
    const found = new Map<string, string>();
    for (const folder of outermostOf(all)) {
      for (const uri of (await this.workspace.filesIn(folder, whole)).uris)
        found.set(canonicalUri(uri), this.spelled(uri));
      await this.pause();
    }
    for (const [canonical, uri] of this.spellings)
      if (this.workspace.kindOf(uri) !== null) found.set(canonical, uri);
    return [...found.values()];
  }

  async read(uri: string, kind = this.workspace.kindOf(uri)): ReturnType<Workspace['unjudged']> {
    await this.pause();
    return this.workspace.unjudged(this.spelled(uri), kind);
  }

  /** A file's text alone, where that is enough. */
  async text(uri: string): Promise<ReadResult> {
    await this.pause();
    return this.workspace.read(this.spelled(uri));
  }

  /** The text of a file; null where it is none. */
  async readText(uri: string): Promise<string | null> {
    const read = await this.text(uri);
    return read.kind === 'text' ? read.text : null;
  }

  /** A chassis file and its parents in order, itself first, as far as they can be had. */
  async chainOf(uri: string): Promise<readonly string[]> {
    const known = this.chains.get(canonicalUri(uri));
    if (known) return known;
    const chain: string[] = [];
    for (let next: string | null = this.spelled(uri); next !== null && !chain.includes(next); ) {
      const file: Awaited<ReturnType<Workspace['unjudged']>> = await this.read(next, 'chassis');
      if (file.kind !== 'chassis') break;
      chain.push(next);
      next = file.sheet.extendsPath === null ? null : await this.linked(next, file.sheet.extendsPath);
    }
    this.chains.set(canonicalUri(uri), chain);
    return chain;
  }

  /** The chassis file that a file of ours is about: the one that a job names, or itself. */
  async chassisOf(file: AboutChassis): Promise<string | null> {
    if (file.kind !== 'readings') return file.kind === 'chassis' ? file.uri : null;
    const { chassisPath } = file.job;
    return chassisPath === null ? null : this.linked(file.uri, chassisPath);
  }

  /** What a path in a file leads to; null where that lies outside of what belongs together, and is not read. */
  private async linked(fromUri: string, path: string): Promise<string | null> {
    if (!hasFolder(fromUri)) return null;
    const uri = resolvedUri(fromUri, path);
    return (await this.workspace.isOutside(uri, fromUri)) ? null : this.spelled(uri);
  }
}

/** Folders that lie in no other of them. */
export const outermostOf = (folders: readonly string[]): string[] =>
  folders.filter((folder) => !folders.some((other) => other !== folder && isInside(folder, other)));

type AboutChassis =
  | { readonly kind: 'readings'; readonly uri: string; readonly job: Pick<Job, 'chassisPath'> }
  | { readonly kind: 'chassis' | 'settings'; readonly uri: string };
