import type { Entry, Listing, ListingChange } from '@framewright/schemas/wire';
import type { Connection, TextDocuments } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { derived } from '../memory/derived';
import { decoded } from '../model/file-name';
import { printable } from '../text/printable';
import type { Files, Unread } from '../workspace/files';
import { unawaited } from '../workspace/unawaited';
import { canonicalUri, schemeOf } from '../workspace/uris';
import { type Found, type KnownFile, WholeCheck } from '../workspace/whole-check';
import { type Analysis, type Fault, faultOf, type Workspace } from '../workspace/workspace';
import { backgroundTimer, type Timer } from './background-timer';
import { CheckProgress } from './check-progress';
import type { Diagnostics } from './diagnostics';
import type { Faults } from './faults';
import { diagnosticsOf, untold } from './file-diagnostics';
import { entryOf } from './job-entry';
import { messagesHanded } from './next-turn';

/** After an edit the editor asks for much that it shows: that goes first, ms. */
const quietMs = 100;
/** After an edit of what many files are judged by the next one is waited for, ms. */
const quietForManyMs = 400;
/** So long changes of the list are gathered, ms. */
const gatheredMs = 250;
const mostTold = 200;

interface Parts {
  readonly connection: Connection;
  readonly documents: TextDocuments<TextDocument>;
  readonly workspace: Workspace;
  readonly diagnostics: Diagnostics;
  readonly faults: Faults;
  /** As they are on the disk. */
  readonly files: Files;
  rulePages(): string | null;
}

/**
 * Every file of the workspace, as an editor sees it: findings of closed files are told too, and the list of jobs is kept up to date.
 * All of it gives way to what concerns an open file.
 */
export class Repository {
  private readonly check: WholeCheck<Entry>;
  private readonly progress: CheckProgress;
  /** Closed files whose findings the editor was told, in one spelling, and as it was told. */
  private readonly shown = new Map<string, string>();
  /** Of documents that are files; an editor also opens earlier versions of a file, under a scheme of their own. */
  private schemes: ReadonlySet<string> = new Set();
  private quietUntil = 0;
  private wasAsked = false;
  private readonly changed = new Set<string>();
  private readonly gone = new Set<string>();
  private telling: Timer | null = null;
  private toldRunning = false;
  /** What was not looked into and is in the log, a line each. */
  private logged: ReadonlySet<string> = new Set();

  constructor(private readonly parts: Parts) {
    this.check = new WholeCheck(parts.workspace, parts.files, {
      turn: () => this.turn(),
      looked: (uri, found, read) => this.looked(uri, found, read),
      listed: (unread) => this.listed(unread),
      found: (uri) => this.changedEntry(uri),
      gone: (uri) => this.forgotten(uri),
      unseen: (uri) => this.unseen(uri),
      progress: (done, of) => {
        this.progress.show(done, of);
        if (this.toldRunning !== this.check.isRunning) this.tellLater();
      },
      failed: parts.faults.stray,
    });
    this.progress = new CheckProgress(parts.connection, () => this.check.stop());
    parts.diagnostics.onLooked((uri) => this.changedEntry(uri));
  }

  /** @param isWanted false: the files are listed, not looked at */
  lookAtAll(roots: readonly string[], isWanted: boolean): void {
    // what is open is opened first
    this.quietUntil = Math.max(this.quietUntil, Date.now() + quietMs);
    if (!isWanted) for (const uri of this.shown.values()) this.publish(uri, []);
    this.schemes = new Set(['file', 'untitled', ...roots.map(schemeOf)]);
    this.check.lookAtAll(roots, isWanted);
    if (!isWanted) for (const { uri } of this.check.known()) this.changedEntry(uri);
  }

  stop(): void {
    this.check.end();
  }

  edited({ uri, text }: { uri: string; text: string }): void {
    const known = this.check.of(uri);
    // the editor takes it for another file under another spelling
    if (known && known.uri !== uri) this.forgotten(known.uri);
    this.shown.delete(canonicalUri(uri));
    const concernsMany = this.parts.workspace.kindOf(uri) !== 'readings';
    this.quietUntil = Date.now() + (concernsMany ? quietForManyMs : quietMs);
    this.check.edited(uri, text);
  }

  /** @returns the editor will be told what is found in the file as it stands on the disk */
  closed({ uri, text }: { uri: string; text: string }): boolean {
    const isTakenOver = this.check.closed(uri, text);
    // so that it is told even where there is nothing
    if (isTakenOver) this.shown.set(canonicalUri(uri), uri);
    this.changedEntry(uri);
    return isTakenOver;
  }

  changedOnDisk(uri: string, how: 'created' | 'changed' | 'deleted'): void {
    if (!this.parts.workspace.isOpen(uri)) this.check.changed(uri, how);
    else if (how !== 'changed') this.check.listAgain();
  }

  listAgain(): void {
    this.check.listAgain();
  }

  /** All jobs and chassis files in the order of their names; from now on the editor is told what changes. */
  async jobs(): Promise<Listing> {
    this.wasAsked = true;
    await this.check.listed();
    this.changed.clear();
    this.gone.clear();
    const entries = [...this.check.known()].flatMap((file) => this.entry(file) ?? []);
    entries.sort((a, b) => (a.uri < b.uri ? -1 : 1));
    const { left, unread, isRunning: checking } = this.check;
    return { entries, left, unread, checking };
  }

  /** What could not be looked into is said once, and again where it came back. */
  private listed(unread: readonly Unread[]): void {
    const lines = new Set(unread.map(({ uri, message }) => printable(`${decoded(uri)}: ${message}`)));
    for (const line of lines)
      if (!this.logged.has(line)) this.parts.connection.console.warn(`not looked into: ${line}`);
    if (lines.size > 0 || this.logged.size > 0) this.tellLater();
    this.logged = lines;
  }

  /** A file's line as it is known; null where it would have to be looked at. */
  knownEntry(uri: string): Entry | null {
    const file = this.check.of(uri);
    const entry = file && this.check.isCurrent(uri) ? this.entry(file) : null;
    return entry?.kind === 'unchecked' ? null : entry;
  }

  private entry(file: KnownFile<Entry>): Entry | null {
    const { uri, kind } = file;
    if (kind === 'settings' || !this.schemes.has(schemeOf(uri))) return null;
    const unchecked: Entry = { kind: 'unchecked', uri, of: kind === 'chassis' ? 'chassis' : 'job' };
    if (!this.parts.workspace.isOpen(uri)) return file.line ?? unchecked;
    const found = this.parts.diagnostics.known(uri);
    return found === null ? unchecked : entryOfOpen(found);
  }

  /** A closed file was looked at: what was found is told, and a line of it kept. */
  private async looked(uri: string, found: Found, read: Files['read']): Promise<Entry | null> {
    const diagnostics = await this.diagnosticsOf(uri, found, read);
    const isGone = this.check.of(uri) === undefined || this.parts.workspace.isOpen(uri);
    if (!isGone && (diagnostics.length > 0 || this.shown.has(canonicalUri(uri))))
      this.publish(uri, diagnostics);
    this.changedEntry(uri);
    return soundEntry(uri, found);
  }

  private async diagnosticsOf(
    uri: string,
    found: Found,
    read: Files['read'],
  ): ReturnType<typeof diagnosticsOf> {
    try {
      return await diagnosticsOf(found, read, this.parts.rulePages());
    } catch (error) {
      this.parts.faults.log(uri, error);
      return untold(uri, 'text' in found ? found.text : '', error);
    }
  }

  private publish(uri: string, diagnostics: Awaited<ReturnType<typeof diagnosticsOf>>): void {
    if (diagnostics.length === 0) this.shown.delete(canonicalUri(uri));
    else this.shown.set(canonicalUri(uri), uri);
    unawaited(this.parts.connection.sendDiagnostics({ uri, diagnostics }), (error) =>
      this.parts.faults.log(uri, error),
    );
  }

  private unseen(uri: string): void {
    if (this.shown.has(canonicalUri(uri))) this.publish(uri, []);
    this.changedEntry(uri);
  }

  private forgotten(uri: string): void {
    if (this.shown.has(canonicalUri(uri))) this.publish(uri, []);
    this.changed.delete(canonicalUri(uri));
    if (this.wasAsked) this.gone.add(uri);
    this.tellLater();
  }

  private async turn(): Promise<void> {
    await messagesHanded();
    for (;;) {
      const quiet = this.quietUntil - Date.now();
      if (this.parts.diagnostics.isBusy) await this.parts.diagnostics.idle();
      else if (quiet > 0) await pause(quiet);
      else return;
    }
  }

  private changedEntry(uri: string): void {
    if (!this.wasAsked) return;
    this.changed.add(canonicalUri(uri));
    this.tellLater();
  }

  private tellLater(ms = gatheredMs): void {
    if (!this.wasAsked || this.telling !== null) return;
    this.telling = backgroundTimer(
      () => this.tell(),
      ms,
      (error) => this.parts.faults.stray('the list of jobs', error),
    );
  }

  private tell(): void {
    this.telling = null;
    const quiet = this.quietUntil - Date.now();
    if (quiet > 0) {
      this.tellLater(quiet);
      return;
    }
    const portion = [...this.changed].slice(0, mostTold);
    for (const key of portion) this.changed.delete(key);
    const entries = portion.flatMap((key) => {
      const file = this.check.of(key);
      return (file && this.entry(file)) ?? [];
    });
    const gone = [...this.gone];
    this.gone.clear();
    const checking = this.check.isRunning;
    this.toldRunning = checking;
    const { left, unread } = this.check;
    const change: ListingChange = { entries, gone, left, unread, checking };
    const { connection, faults } = this.parts;
    unawaited(connection.sendNotification('framewright/jobsChanged', change), (error) =>
      faults.log('the list of jobs', error),
    );
    if (this.changed.size > 0) this.tellLater();
  }
}

/** An open file is asked about again and again between two edits. */
const entryOfOpen = derived((found: Analysis | Fault) => soundEntry(found.uri, found));

/** The line of a file that cannot be put into one is that. */
function soundEntry(uri: string, found: Found): Entry | null {
  try {
    return entryOf(uri, found);
  } catch (error) {
    const text = 'text' in found ? found.text : '';
    return { kind: 'unreadable', uri, message: faultOf(uri, text, 'its line in the list', error).message };
  }
}

const pause = (ms: number): Promise<void> =>
  new Promise((resolve) => {
    backgroundTimer(resolve, ms, () => resolve());
  });
