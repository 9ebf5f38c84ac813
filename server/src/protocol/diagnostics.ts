import type { Connection, TextDocuments } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { type LineTable, linesOf } from '../text/lines';
import { canonicalUri } from '../workspace/uris';
import type { Analysis, Workspace } from '../workspace/workspace';
import { diagnosticOf } from './convert';

/** After what is being handled now; a timer of nothing still costs a millisecond where there is something better. */
const soon: (task: () => void) => void =
  (globalThis as { setImmediate?: (task: () => void) => void }).setImmediate ??
  ((task) => setTimeout(task, 0));

/** Looks at open documents again when they, or files that they were made from, change, and tells the editor what was found. */
export class Diagnostics {
  /** The newest analysis of each open document, by URI. */
  private readonly analyses = new Map<string, { version: number; analysis: Analysis }>();
  /** Documents to be looked at again; the newest edit wins. */
  private readonly due = new Set<string>();
  private running = false;

  constructor(
    private readonly connection: Connection,
    private readonly documents: TextDocuments<TextDocument>,
    private readonly workspace: Workspace,
    private readonly rulePages: () => string | null,
  ) {}

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

  forget(uri: string): void {
    this.analyses.delete(uri);
    this.due.delete(uri);
    void this.connection.sendDiagnostics({ uri, diagnostics: [] });
    this.lookAgain(uri);
  }

  /** The analysis of a document as it stands now; null where it cannot be read. */
  async current(uri: string): Promise<Analysis | null> {
    const document = this.documents.get(uri);
    const known = this.analyses.get(uri);
    if (document && known?.version === document.version && !this.due.has(uri)) return known.analysis;
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
        await this.lookAt(uri);
      }
    } finally {
      this.running = false;
    }
    this.schedule();
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
      await this.publish(analysis, version);
    } catch (error) {
      this.connection.console.error(`${uri}: ${(error as Error).stack ?? error}`);
    }
  }

  private async publish(analysis: Analysis, version: number): Promise<void> {
    const lines = linesOf(analysis.text);
    const others = await this.otherTexts(analysis);
    const linesIn = (uri: string): LineTable | null =>
      uri === analysis.uri ? lines : (others.get(uri) ?? null);
    const shown = analysis.findings.filter((finding) => finding.ignored === null);
    await this.connection.sendDiagnostics({
      uri: analysis.uri,
      version,
      diagnostics: shown.map((finding) => diagnosticOf(finding, lines, linesIn, this.rulePages())),
    });
  }

  /** Line tables of the other files that findings point into. */
  private async otherTexts(analysis: Analysis): Promise<Map<string, LineTable>> {
    const tables = new Map<string, LineTable>();
    const uris = new Set<string>();
    for (const { related } of analysis.findings) for (const { uri } of related) uris.add(uri);
    uris.delete(analysis.uri);
    for (const uri of uris) {
      const read = await this.workspace.read(uri);
      if (read.kind === 'text') tables.set(uri, linesOf(read.text));
    }
    return tables;
  }
}
