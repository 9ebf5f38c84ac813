import type { Connection } from 'vscode-languageserver';
import { unawaited } from '../workspace/unawaited';
import { canonicalUri } from '../workspace/uris';
import type { Analysis, Fault, Workspace } from '../workspace/workspace';
import type { Faults } from './faults';
import { diagnosticsOf, untold } from './file-diagnostics';
import type { FileDocuments } from './file-documents';
import { nextTurn } from './next-turn';

/** Looks at open documents again when they, or files that they were made from, change, and tells the editor what was found. */
export class Diagnostics {
  /** What came of the newest look at each open document, by URI. */
  private readonly looks = new Map<string, { version: number; found: Analysis | Fault }>();
  /** Documents to be looked at again; the newest edit wins. */
  private readonly due = new Set<string>();
  private running = false;
  /** The document that is just being looked at: what is known of it may be old. */
  private looking: string | null = null;
  private waiting: (() => void)[] = [];
  private readonly listeners: ((uri: string) => void)[] = [];

  constructor(
    private readonly connection: Connection,
    private readonly documents: FileDocuments,
    private readonly workspace: Workspace,
    private readonly rulePages: () => string | null,
    private readonly faults: Faults,
  ) {}

  /** Tells of every document that was looked at again. */
  onLooked(listener: (uri: string) => void): void {
    this.listeners.push(listener);
  }

  lookAgainAtAll(): void {
    for (const document of this.documents.all()) this.due.add(document.uri);
    this.schedule();
  }

  /** A file changed: it and whatever open document was made from it. A file that was missing may be what another waits for. */
  lookAgain(changed: string): void {
    if (this.documents.get(changed)) this.due.add(changed);
    const canonical = canonicalUri(changed);
    for (const [uri, { found }] of this.looks) {
      // what one would have been made from that the program failed on is not known
      const isMadeFrom =
        found.kind === 'fault' || found.dependencies.some((each) => canonicalUri(each) === canonical);
      if (isMadeFrom || changed.endsWith('.framewright.yaml')) this.due.add(uri);
    }
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
      unawaited(this.connection.sendDiagnostics({ uri, diagnostics: [] }), (error) =>
        this.faults.log(uri, error),
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
    const document = this.documents.get(uri);
    const known = this.looks.get(uri);
    const isCurrent = document && known?.version === document.version;
    const found =
      isCurrent && !this.due.has(uri) && this.looking !== uri
        ? known.found
        : await this.workspace.analysis(uri);
    return 'findings' in found ? found : null;
  }

  private schedule(): void {
    if (this.running || this.due.size === 0) return;
    this.running = true;
    // so that a burst of edits is looked at once
    nextTurn(() => unawaited(this.work(), (error) => this.faults.stray('looking at open documents', error)));
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
    const document = this.documents.get(uri);
    if (!document) return;
    const { version } = document;
    const text = document.getText();
    try {
      const found = await this.workspace.analysis(uri);
      // a newer edit has come meanwhile: its own turn follows
      if (this.isOvertaken(uri, version)) return;
      if (found.kind !== 'fault' && !('findings' in found)) return;
      this.looks.set(uri, { version, found });
      this.tellLooked(uri);
      await this.publish(uri, version, found);
    } catch (error) {
      this.faults.log(uri, error);
      await this.publishUntold(uri, version, text, error);
    }
  }

  private isOvertaken(uri: string, version: number): boolean {
    return this.documents.get(uri)?.version !== version;
  }

  private tellLooked(uri: string): void {
    for (const listener of this.listeners) {
      try {
        listener(uri);
      } catch (error) {
        this.faults.stray(uri, error);
      }
    }
  }

  private async publish(uri: string, version: number, found: Analysis | Fault): Promise<void> {
    const diagnostics = await diagnosticsOf(
      found,
      (other) => this.workspace.readAlready(other),
      this.rulePages(),
    );
    if (!this.isOvertaken(uri, version)) await this.connection.sendDiagnostics({ uri, version, diagnostics });
  }

  /** Older findings must not stand over newer text. */
  private async publishUntold(uri: string, version: number, text: string, error: unknown): Promise<void> {
    if (this.isOvertaken(uri, version)) return;
    try {
      await this.connection.sendDiagnostics({ uri, version, diagnostics: untold(uri, text, error) });
    } catch (again) {
      this.faults.log(uri, again);
    }
  }
}
