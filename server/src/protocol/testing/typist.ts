import type { JobEntry } from '@framewright/schemas/wire';
import type { CodeAction, Diagnostic, InlayHint, TextEdit } from 'vscode-languageserver';
import { applyEdits } from '../../text/edits';
import { linesOf } from '../../text/lines';
import { memoryFiles } from '../../workspace/testing/memory-files';
import { InProcessClient } from './in-process';

const root = 'file:///shop';
export const typedUri = `${root}/w.readings.yaml`;
export const bodyUri = `${root}/car.chassis.yaml`;

/** Somebody who types into a job, in an editor that closes brackets and asks for hints after each key. */
export class Typist {
  private readonly client: InProcessClient;
  private text = '';
  private version = 1;
  private at = 0;
  private findings: readonly Diagnostic[] = [];
  /** What the list of jobs was told of the job, without what was told before. */
  readonly told: string[] = [];

  constructor(
    files: Readonly<Record<string, string>>,
    private readonly pass: (ms: number) => Promise<unknown>,
  ) {
    this.client = new InProcessClient(memoryFiles(files, root));
    const { connection } = this.client;
    connection.onNotification('textDocument/publishDiagnostics', ({ uri, diagnostics, version }) => {
      if (uri === typedUri && version === this.version) this.findings = diagnostics;
    });
    connection.onNotification('framewright/jobsChanged', ({ entries }: { entries: JobEntry[] }) => {
      this.hears(entries);
    });
  }

  private hears(entries: readonly JobEntry[]): void {
    for (const { uri, state, stage, counts, worst } of entries) {
      const words = JSON.stringify([state, stage, counts, worst?.id, worst?.words]);
      if (uri === typedUri && this.told.at(-1) !== words) this.told.push(words);
    }
  }

  async opens(text: string, cursor: string, tellsCursor = true): Promise<void> {
    this.text = text;
    await this.client.initialize({}, { rootUri: root, initializationOptions: { tellsCursor } });
    await this.client.open(typedUri, 'framewright-readings', text);
    const listed = this.client.request<{ entries: JobEntry[] }>('framewright/jobs', {});
    await this.goes(cursor);
    // the files are gone through when a while has passed
    await this.waits(1000);
    this.hears((await listed).entries);
    await this.waits(1000);
  }

  /** Puts the cursor behind some text. */
  async goes(behind: string): Promise<void> {
    this.at = this.text.indexOf(behind) + behind.length;
    await this.tellsLine(this.line);
  }

  tellsLine(line: number | null): Promise<void> {
    return this.client.tell('framewright/cursor', { uri: typedUri, line });
  }

  get line(): number {
    return linesOf(this.text).positionAt(this.at).line;
  }

  /** The row that the cursor is in. */
  get row(): string {
    return linesOf(this.text).lineText(this.line);
  }

  async waits(ms: number): Promise<void> {
    await this.pass(ms);
    // whatever comes after that has its turn
    await this.client.request('textDocument/documentLink', { textDocument: { uri: typedUri } });
    for (let turn = 0; turn < 20; turn++) await new Promise((resolve) => setImmediate(resolve));
  }

  async key(key: string): Promise<void> {
    const isPaired = key === '[';
    const isOver = key === ']' && this.text[this.at] === ']';
    if (isOver) this.at++;
    else await this.replaces(this.at, this.at, isPaired ? '[]' : key, isPaired ? 1 : undefined);
    await this.waits(120);
  }

  async erases(): Promise<void> {
    await this.replaces(this.at - 1, this.at, '');
    await this.waits(120);
  }

  async enter(): Promise<void> {
    const indent = /^ */.exec(this.row)?.[0] ?? '';
    await this.replaces(this.at, this.at, `\n${indent}`);
    const edits = await this.client.request<TextEdit[]>('textDocument/onTypeFormatting', {
      textDocument: { uri: typedUri },
      position: linesOf(this.text).positionAt(this.at),
      ch: '\n',
      options: { tabSize: 2, insertSpaces: true },
    });
    const { line } = this;
    const lines = linesOf(this.text);
    const offset = ({ line, character }: { line: number; character: number }) =>
      lines.offsetAt(line, character);
    const plain = edits.map(({ range, newText }) => ({
      start: offset(range.start),
      end: offset(range.end),
      text: newText,
    }));
    await this.becomes(applyEdits(this.text, plain));
    this.at = linesOf(this.text).endOf(line);
    await this.waits(120);
  }

  private async replaces(start: number, end: number, text: string, forward = text.length): Promise<void> {
    const { line } = this;
    this.at = start + forward;
    await this.becomes(this.text.slice(0, start) + text + this.text.slice(end));
    // an editor tells of the text first
    if (this.line !== line) await this.tellsLine(this.line);
  }

  private becomes(text: string): Promise<void> {
    this.text = text;
    const textDocument = { uri: typedUri, version: ++this.version };
    return this.client.tell('textDocument/didChange', { textDocument, contentChanges: [{ text }] });
  }

  /** Rules of what is found that begins in the row of the cursor, or in others. */
  found(where: 'in the row' | 'elsewhere'): string[] {
    return this.findings
      .filter(({ range }) => (range.start.line === this.line) === (where === 'in the row'))
      .map(({ code }) => String(code));
  }

  /** What stands behind the rows, by their names. */
  async hints(): Promise<ReadonlyMap<string, string>> {
    const lines = linesOf(this.text);
    const end = { line: lines.lineCount, character: 0 };
    const hints = await this.client.request<InlayHint[]>('textDocument/inlayHint', {
      textDocument: { uri: typedUri },
      range: { start: { line: 0, character: 0 }, end },
    });
    return new Map(
      hints.map(({ position, label }) => [lines.lineText(position.line).split(':')[0].trim(), String(label)]),
    );
  }

  /** Titles of what is offered at the cursor. */
  async offered(): Promise<string[]> {
    const place = linesOf(this.text).positionAt(this.at);
    const actions = await this.client.request<CodeAction[]>('textDocument/codeAction', {
      textDocument: { uri: typedUri },
      range: { start: place, end: place },
      context: { diagnostics: [] },
    });
    return actions.map(({ title }) => title);
  }

  opensOther(uri: string, language: string, text: string): Promise<void> {
    return this.client.open(uri, language, text);
  }

  asks<T>(method: string, params: object): Promise<T> {
    return this.client.request<T>(method, params);
  }

  async closes(): Promise<void> {
    await this.client.tell('textDocument/didClose', { textDocument: { uri: typedUri } });
    await this.waits(1000);
  }

  async opensAgain(): Promise<void> {
    this.version = 1;
    await this.client.open(typedUri, 'framewright-readings', this.text);
    await this.waits(1000);
  }
}
