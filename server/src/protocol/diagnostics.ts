import type { Connection } from 'vscode-languageserver';
import { type TypedRow, textBefore } from '../editor/typing/typed-row';
import { unawaited } from '../workspace/unawaited';
import { canonicalUri } from '../workspace/uris';
import type { Analysis, Fault, Workspace } from '../workspace/workspace';
import type { Faults } from './faults';
import { diagnosticsOf, untold } from './file-diagnostics';
import type { FileDocuments } from './file-documents';
import { nextTurn } from './next-turn';
import type { TypedRows } from './typed-rows';

interface Parts {
  readonly connection: Connection;
  readonly documents: FileDocuments;
  readonly workspace: Workspace;
  readonly rows: TypedRows;
  rulePages(): string | null;
  readonly faults: Faults;
}

interface Look {
  readonly version: number;
  readonly found: Analysis | Fault;
  /** Being typed, and looked at as it was before. */
  readonly row: TypedRow | null;
}

/** An analysis that is shown, which may be of the text as it was before somebody began to type a row. */
export interface Shown {
  readonly analysis: Analysis;
  /** That row: nothing of it is shown. Lines are those of the text as it stands, characters in this row are not. */
  readonly row: TypedRow | null;
}

/** Looks at open documents again when they, or files that they were made from, change, and tells the editor what was found. */
export class Diagnostics {
  /** What came of the newest look at each open document, by URI. */
  private readonly looks = new Map<string, Look>();
  /** Analyses of the text itself that were asked for beside such a look. */
  private readonly truths = new WeakMap<Look, Awaited<ReturnType<Workspace['analysis']>>>();
  /** Documents to be looked at again; the newest edit wins. */
  private readonly due = new Set<string>();
  private running = false;
  /** The document that is just being looked at: what is known of it may be old. */
  private looking: string | null = null;
  private waiting: (() => void)[] = [];
  private readonly listeners: ((uri: string) => void)[] = [];

  constructor(private readonly parts: Parts) {}

  /** Tells of every document that was looked at again. */
  onLooked(listener: (uri: string) => void): void {
    this.listeners.push(listener);
  }

  lookAgainAtAll(): void {
    for (const document of this.parts.documents.all()) this.due.add(document.uri);
    this.schedule();
  }

  /** A file changed: it and whatever open document was made from it. A file that was missing may be what another waits for. */
  lookAgain(changed: string): void {
    if (this.parts.documents.get(changed)) this.due.add(changed);
    const canonical = canonicalUri(changed);
    for (const [uri, { found }] of this.looks) {
      // what one would have been made from that the program failed on is not known
      const isMadeFrom =
        found.kind === 'fault' || found.dependencies.some((each) => canonicalUri(each) === canonical);
      if (isMadeFrom || changed.endsWith('.framewright.yaml')) this.due.add(uri);
    }
    this.schedule();
  }

  /** Something else of a document is to be shown, which itself did not change. */
  showAgain(uri: string): void {
    if (this.parts.documents.get(uri)) this.due.add(uri);
    this.schedule();
  }

  /** Files came or went: what settings ignore may hold a first file now, or none any more. */
  filesCameOrWent(): void {
    for (const [uri] of this.looks) if (uri.endsWith('.framewright.yaml')) this.due.add(uri);
    this.schedule();
  }

  /** @param isTakenOver what is found in the file as it stands on the disk will be told by others */
  forget(uri: string, isTakenOver: boolean): void {
    this.looks.delete(uri);
    this.due.delete(uri);
    if (!isTakenOver)
      unawaited(this.parts.connection.sendDiagnostics({ uri, diagnostics: [] }), (error) =>
        this.parts.faults.log(uri, error),
      );
    this.lookAgain(uri);
  }

  /** An open document waits to be looked at. */
  get isBusy(): boolean {
    return this.running || this.due.size > 0;
  }

  /** When no open document waits any more. */
  idle(): Promise<void> {
    return this.isBusy ? new Promise((resolve) => this.waiting.push(resolve)) : Promise.resolve();
  }

  /** What came of the newest look at an open document, which an edit may have overtaken; null before there was one. */
  known(uri: string): Analysis | Fault | null {
    return this.looks.get(uri)?.found ?? null;
  }

  /** The analysis of a document as it stands now; null where it cannot be read. */
  async current(uri: string): Promise<Analysis | null> {
    const look = this.looks.get(uri);
    const known = this.isCurrent(uri, look)
      ? look.row === null
        ? look.found
        : this.truths.get(look)
      : undefined;
    const found = known ?? (await this.parts.workspace.analysis(uri));
    // whatever it was made from may have changed meanwhile
    if (look?.row && this.looks.get(uri) === look && this.isCurrent(uri, look)) this.truths.set(look, found);
    return 'findings' in found ? found : null;
  }

  /** What is shown of a document; null where it cannot be read. */
  async shown(uri: string): Promise<Shown | null> {
    const look = this.looks.get(uri);
    const row = this.parts.rows.rowOf(uri);
    const isCurrent = this.isCurrent(uri, look) && look.row === row;
    const found = isCurrent ? look.found : await this.seen(uri, row);
    return 'findings' in found ? { analysis: found, row } : null;
  }

  private isCurrent(uri: string, look: Look | undefined): look is Look {
    const isOfText = look !== undefined && this.parts.documents.get(uri)?.version === look.version;
    return isOfText && !this.due.has(uri) && this.looking !== uri;
  }

  /** A document as it stands, or as it stood before a row was begun. */
  private seen(uri: string, row: TypedRow | null): ReturnType<Workspace['analysis']> {
    const { workspace, documents } = this.parts;
    const document = documents.get(uri);
    return row && document
      ? workspace.analysisInstead(uri, textBefore(document.getText(), row))
      : workspace.analysis(uri);
  }

  private schedule(): void {
    if (this.running || this.due.size === 0) return;
    this.running = true;
    // so that a burst of edits is looked at once
    nextTurn(() =>
      unawaited(this.work(), (error) => this.parts.faults.stray('looking at open documents', error)),
    );
  }

  private async work(): Promise<void> {
    try {
      for (let [uri] = this.due; uri !== undefined; [uri] = this.due) {
        this.due.delete(uri);
        this.looking = uri;
        await this.lookAt(uri);
      }
    } finally {
      this.running = false;
      this.looking = null;
      this.schedule();
      if (!this.isBusy) for (const resolve of this.waiting.splice(0)) resolve();
    }
  }

  private async lookAt(uri: string): Promise<void> {
    const document = this.parts.documents.get(uri);
    if (!document) return;
    const { version } = document;
    const text = document.getText();
    try {
      const row = this.parts.rows.rowOf(uri);
      const found = await this.seen(uri, row);
      // a newer edit has come meanwhile, or the row is no longer typed: its own turn follows
      if (this.isOvertaken(uri, version) || this.parts.rows.rowOf(uri) !== row) return;
      if (found.kind !== 'fault' && !('findings' in found)) return;
      const look = { version, found, row };
      this.looks.set(uri, look);
      this.tellLooked(uri);
      await this.publish(uri, look);
    } catch (error) {
      this.parts.faults.log(uri, error);
      await this.publishUntold(uri, version, text, error);
    }
  }

  private isOvertaken(uri: string, version: number): boolean {
    return this.parts.documents.get(uri)?.version !== version;
  }

  private tellLooked(uri: string): void {
    for (const listener of this.listeners) {
      try {
        listener(uri);
      } catch (error) {
        this.parts.faults.stray(uri, error);
      }
    }
  }

  private async publish(uri: string, { version, found, row }: Look): Promise<void> {
    const all = await diagnosticsOf(
      found,
      (other) => this.parts.workspace.readAlready(other),
      this.parts.rulePages(),
    );
    const diagnostics = row ? all.filter(({ range }) => range.start.line !== row.line) : all;
    if (!this.isOvertaken(uri, version))
      await this.parts.connection.sendDiagnostics({ uri, version, diagnostics });
  }

  /** Older findings must not stand over newer text. */
  private async publishUntold(uri: string, version: number, text: string, error: unknown): Promise<void> {
    if (this.isOvertaken(uri, version)) return;
    try {
      await this.parts.connection.sendDiagnostics({ uri, version, diagnostics: untold(uri, text, error) });
    } catch (again) {
      this.parts.faults.log(uri, again);
    }
  }
}
