import type { Connection } from 'vscode-languageserver';
import { canonicalUri } from '../workspace/uris';
import type { Analysis, Workspace } from '../workspace/workspace';
import { diagnosticsOf } from './file-diagnostics';
import type { FileDocuments } from './file-documents';
import { soon } from './soon';

/** Looks at open documents again when they, or files that they were made from, change, and tells the editor what was found. */
export class Diagnostics {
  /** The newest analysis of each open document, by URI. */
  private readonly analyses = new Map<string, { version: number; analysis: Analysis }>();
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
    for (const [uri, { analysis }] of this.analyses) {
      const isMadeFrom = analysis.dependencies.some((each) => canonicalUri(each) === canonical);
      if (isMadeFrom || changed.endsWith('.framewright.yaml')) this.due.add(uri);
    }
    this.schedule();
  }

  /** @param isTakenOver what is found in the file as it stands on the disk will be told by others */
  forget(uri: string, isTakenOver: boolean): void {
    this.analyses.delete(uri);
    this.due.delete(uri);
    if (!isTakenOver) void this.connection.sendDiagnostics({ uri, diagnostics: [] });
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

  /** The newest analysis of an open document, which an edit may have overtaken; null before there is one. */
  known(uri: string): Analysis | null {
    return this.analyses.get(uri)?.analysis ?? null;
  }

  /** The analysis of a document as it stands now; null where it cannot be read. */
  async current(uri: string): Promise<Analysis | null> {
    const document = this.documents.get(uri);
    const known = this.analyses.get(uri);
    if (document && known?.version === document.version && !this.due.has(uri) && this.looking !== uri)
      return known.analysis;
    const analysis = await this.workspace.analysis(uri);
    return 'findings' in analysis ? analysis : null;
  }

  private schedule(): void {
    if (this.running || this.due.size === 0) return;
    this.running = true;
    // so that a burst of edits is looked at once
    soon(() => void this.work());
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
    }
    this.schedule();
    if (!this.isBusy) for (const resolve of this.waiting.splice(0)) resolve();
  }

  private async lookAt(uri: string): Promise<void> {
    const document = this.documents.get(uri);
    if (!document) return;
    const { version } = document;
    try {
      const analysis = await this.workspace.analysis(uri);
      // a newer edit has come meanwhile: its own turn follows
      if (this.documents.get(uri)?.version !== version || !('findings' in analysis)) return;
      this.analyses.set(uri, { version, analysis });
      for (const listener of this.listeners) listener(uri);
      await this.publish(analysis, version);
    } catch (error) {
      this.connection.console.error(`${uri}: ${(error as Error).stack ?? error}`);
    }
  }

  private async publish(analysis: Analysis, version: number): Promise<void> {
    const { uri } = analysis;
    const diagnostics = await diagnosticsOf(
      analysis,
      (other) => this.workspace.readAlready(other),
      this.rulePages(),
    );
    await this.connection.sendDiagnostics({ uri, version, diagnostics });
  }
}
