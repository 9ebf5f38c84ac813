import { DueFiles } from './due-files';
import { type FileKind, type Files, fileKind, type Unread } from './files';
import { listedFiles } from './listed-files';
import { sharedReads } from './shared-reads';
import { unawaited } from './unawaited';
import { canonicalUri, folderOf, isInside } from './uris';
import { Workspace } from './workspace';

/** What is known of a file of the workspace. */
export interface KnownFile<Line> {
  /** As the editor spells it where it has the file open. */
  readonly uri: string;
  readonly kind: FileKind | null;
  /** What is kept of a closed file once it was looked at; nothing else of it is. */
  readonly line: Line | null;
  /** Files that it was judged by, in one spelling. */
  readonly dependencies: readonly string[];
  /** It lies in one of the editor's folders. An open file that does not is known as long as it is open. */
  readonly listed: boolean;
}

/** How the check of a whole workspace is seen from outside. */
interface CheckListener<Line> {
  /** Called before each file and between the steps of one: lets everything go first that a person waits for. */
  turn(): Promise<void>;
  /** A closed file was looked at; gives what is to be kept of it. `read`: files as it was judged by them. */
  looked(uri: string, found: Found, read: Files['read']): Promise<Line | null>;
  /** The folders were listed; `unread`: what was not looked into. */
  listed(unread: readonly Unread[]): void;
  /** A file is one of the workspace's from now on. */
  found(uri: string): void;
  /** A file is no longer one of the workspace's. */
  gone(uri: string): void;
  /** A file is not looked at after all: what was told of it may not hold. */
  unseen(uri: string): void;
  /** `done` of `of` files since it last had nothing to do; `of` grows where files change meanwhile. */
  progress(done: number, of: number): void;
  /** Something was thrown at a file, or in one of these; `where`: the file, or what was being done. */
  failed(where: string, error: unknown): void;
}

export type Found = Awaited<ReturnType<Workspace['analysis']>>;

/**
 * Looks at every file of ours in the editor's folders that is not open, one after the other, and again at those that a change
 * concerns. Of each it keeps a line and what it was made from, nothing of its text. Open files belong to others: here they are
 * only known.
 */
export class WholeCheck<Line> {
  private readonly files = new Map<string, KnownFile<Line>>();
  /** Closed files to be looked at; those that were touched themselves are urgent. */
  private readonly due = new DueFiles();
  /** Files that were open at their last edit. */
  private readonly opened = new Set<string>();
  /** Files that the program failed on: what they would have been judged by is not known. */
  private readonly faulty = new Set<string>();
  private folders: readonly string[] = [];
  private isWanted = true;
  private isListingDue = false;
  private isListed = false;
  private isStarted = false;
  private done = 0;
  /** Counts what may have changed a judgement under way. */
  private changes = 0;
  /** Made for one run, and again after a change of what jobs have in common. */
  private judging: Workspace | null = null;
  private waiting: (() => void)[] = [];
  /** Files in the folders beyond the most. */
  left = 0;
  /** What was not looked into. */
  unread: readonly Unread[] = [];
  /** There is something to be looked at. */
  isRunning = false;

  /**
   * @param open the open files
   * @param disk all files, as they are when no editor has them open
   */
  constructor(
    private readonly open: Workspace,
    private readonly disk: Files,
    private readonly listener: CheckListener<Line>,
  ) {}

  /** A listener that fails must not end the check. */
  private tell(act: (listener: CheckListener<Line>) => void): void {
    try {
      act(this.listener);
    } catch (error) {
      this.listener.failed('telling of a check', error);
    }
  }

  private start(work: Promise<void>): void {
    unawaited(work, (error) => this.listener.failed('checking the workspace', error));
  }

  known(): IterableIterator<KnownFile<Line>> {
    return this.files.values();
  }

  of(uri: string): KnownFile<Line> | undefined {
    return this.files.get(canonicalUri(uri));
  }

  /** What was kept of a file still holds. */
  isCurrent(uri: string): boolean {
    return !this.due.has(canonicalUri(uri));
  }

  /**
   * Lists the files anew and looks at all of them.
   * @param isWanted false: the files are listed only
   */
  lookAtAll(folders: readonly string[], isWanted: boolean): void {
    this.folders = folders;
    this.isWanted = isWanted;
    this.forgetShared();
    this.due.clear();
    for (const [key, file] of this.files) {
      if (this.open.isOpen(file.uri)) continue;
      if (isWanted) this.due.add(key);
      else this.files.set(key, { ...file, line: null, dependencies: [] });
    }
    this.list();
  }

  /** Looks at nothing more; what was still to be looked at is not known any longer. */
  stop(): void {
    for (let next = this.due.take(); next !== null; next = this.due.take()) this.leaveUnseen(next.key);
  }

  /** Nobody is told any more. */
  end(): void {
    this.due.clear();
  }

  /** What was found earlier does not hold, and nothing newer is known. */
  private leaveUnseen(key: string): void {
    const file = this.files.get(key);
    if (!file || this.open.isOpen(file.uri)) return;
    this.files.set(key, { ...file, line: null });
    this.tell((listener) => listener.unseen(file.uri));
  }

  /** When the folders have been listed as they are now. */
  listed(): Promise<void> {
    if (this.isListed && !this.isListingDue) return Promise.resolve();
    return new Promise((resolve) => this.waiting.push(resolve));
  }

  /** A file changed on the disk. */
  changed(uri: string, how: 'created' | 'changed' | 'deleted'): void {
    const key = canonicalUri(uri);
    const file = this.files.get(key);
    this.touched(uri);
    if (how === 'deleted' && file && !this.open.isOpen(uri)) this.drop(key, file);
    if (how !== 'changed' || (file === undefined && fileKind(uri) !== null)) this.list();
    if (how !== 'deleted' && file) this.dueFirst(key, file);
    this.wake();
  }

  /** Files or whole folders were made, moved or deleted. */
  listAgain(): void {
    this.forgetShared();
    this.list();
  }

  /** An open file's text changed; the first time it is opened. */
  edited(uri: string, text: string): void {
    const key = canonicalUri(uri);
    const file = this.files.get(key);
    this.due.delete(key);
    const kind = this.open.kindOf(uri);
    this.files.set(key, { line: null, dependencies: [], listed: false, ...file, uri, kind });
    if (this.opened.has(key)) this.touched(uri);
    else this.start(this.touchedUnlessOnDisk(uri, text));
    this.opened.add(key);
    this.wake();
  }

  /** A file was closed, and its text gone where it was not saved; true where it will be looked at as it stands on the disk. */
  closed(uri: string, text: string): boolean {
    const key = canonicalUri(uri);
    const file = this.files.get(key);
    this.opened.delete(key);
    this.start(this.touchedUnlessOnDisk(uri, text));
    if (!file) return false;
    if (!file.listed) {
      this.drop(key, file);
      return false;
    }
    this.files.set(key, { ...file, kind: fileKind(uri), line: null });
    this.dueFirst(key, file);
    this.wake();
    return this.isWanted;
  }

  /** What many files are judged by may have changed: those are due again. */
  private touched(uri: string): void {
    const kind = this.open.kindOf(uri);
    if (kind === 'readings') return;
    this.forgetShared();
    const key = canonicalUri(uri);
    const isSettings = kind === 'settings';
    if (isSettings) this.isListingDue = true;
    const folder = folderOf(uri);
    for (const [other, file] of this.files) {
      if (!this.isWanted || this.open.isOpen(file.uri)) continue;
      const isConcerned =
        file.dependencies.includes(key) ||
        this.faulty.has(other) ||
        (isSettings && isInside(file.uri, folder));
      if (isConcerned) this.due.add(other);
    }
  }

  /** Editors open and close files for a look at them, and many jobs may hang on one. */
  private async touchedUnlessOnDisk(uri: string, text: string): Promise<void> {
    if (this.open.kindOf(uri) === 'readings') return;
    const read = await this.disk.read(uri).catch(() => null);
    if (read?.kind !== 'text' || read.text !== text) this.touched(uri);
    this.wake();
  }

  private forgetShared(): void {
    this.changes++;
    this.judging = null;
  }

  private dueFirst(key: string, file: KnownFile<Line>): void {
    this.changes++;
    if (this.isWanted && !this.open.isOpen(file.uri)) this.due.add(key, true);
  }

  private drop(key: string, file: KnownFile<Line>): void {
    this.files.delete(key);
    this.due.delete(key);
    this.faulty.delete(key);
    this.tell((listener) => listener.gone(file.uri));
  }

  private list(): void {
    this.isListingDue = true;
    // what settings ignore may hold a first file now, or none any more
    const settings = [...this.files].filter(
      ([, { kind, uri }]) => kind === 'settings' && !this.open.isOpen(uri),
    );
    if (this.isWanted && settings.length > 0) {
      this.forgetShared();
      for (const [key] of settings) this.due.add(key);
    }
    this.wake();
  }

  private wake(): void {
    if (this.isStarted) return;
    if (!this.isListingDue && this.due.size === 0) return;
    this.isStarted = true;
    this.start(this.runs());
  }

  private async runs(): Promise<void> {
    try {
      await this.run();
    } finally {
      this.judging = null;
      this.isRunning = false;
      this.isStarted = false;
      this.tell((listener) => listener.progress(this.done, this.done));
    }
    // one that failed goes on with the next change, not at once and for ever
    this.wake();
  }

  private async run(): Promise<void> {
    this.done = 0;
    this.isRunning = true;
    this.tell((listener) => listener.progress(0, this.due.size));
    for (;;) {
      await this.listener.turn();
      if (this.isListingDue) {
        await this.takeList();
        this.tell((listener) => listener.progress(this.done, this.done + this.due.size));
        continue;
      }
      const next = this.due.take();
      if (next === null) break;
      await this.lookAt(next.key, next.isUrgent);
      this.done++;
      this.tell((listener) => listener.progress(this.done, this.done + this.due.size));
    }
  }

  private async takeList(): Promise<void> {
    this.isListingDue = false;
    const { files, left, unread } = await listedFiles(this.open, this.folders, this.listener.failed);
    this.left = left;
    this.unread = unread;
    this.listener.listed(unread);
    for (const [key, file] of this.files) {
      if (files.has(key)) continue;
      if (this.open.isOpen(file.uri)) this.files.set(key, { ...file, listed: false });
      else this.drop(key, file);
    }
    for (const [key, uri] of files) {
      const file = this.files.get(key);
      if (file) this.files.set(key, { ...file, listed: true });
      else {
        this.files.set(key, { uri, kind: fileKind(uri), line: null, dependencies: [], listed: true });
        if (this.isWanted) this.due.add(key);
        this.tell((listener) => listener.found(uri));
      }
    }
    this.isListed = true;
    // one that was asked for again meanwhile is yet to come
    if (!this.isListingDue) for (const resolve of this.waiting.splice(0)) resolve();
  }

  private async lookAt(key: string, isUrgent: boolean): Promise<void> {
    const file = this.files.get(key);
    if (!file || this.open.isOpen(file.uri)) return;
    const { changes } = this;
    try {
      const workspace = this.workspaceOfRun();
      const found = await workspace.analysis(file.uri, file.kind, () => this.listener.turn());
      if (changes !== this.changes) {
        this.putBack(key, isUrgent);
        return;
      }
      const line = await this.listener.looked(file.uri, found, (uri) => workspace.read(uri));
      const dependencies = 'findings' in found ? found.dependencies.map(canonicalUri) : [];
      if (found.kind === 'fault') this.faulty.add(key);
      else this.faulty.delete(key);
      const now = this.files.get(key);
      if (now && !this.open.isOpen(now.uri)) this.files.set(key, { ...now, line, dependencies });
      if (changes !== this.changes) this.putBack(key, isUrgent);
    } catch (error) {
      this.leaveUnseen(key);
      this.listener.failed(file.uri, error);
    }
  }

  /** What it was judged by may be another thing by now. */
  private putBack(key: string, isUrgent: boolean): void {
    const file = this.files.get(key);
    if (!file || this.open.isOpen(file.uri) || !this.isWanted) return;
    this.due.add(key, isUrgent);
  }

  private workspaceOfRun(): Workspace {
    if (this.judging === null) {
      this.judging = new Workspace(
        sharedReads(this.disk, (uri) => this.open.read(uri)),
        this.open.judges,
      );
      this.judging.editorSeverities = this.open.editorSeverities;
      this.judging.failed = this.open.failed;
    }
    return this.judging;
  }
}
