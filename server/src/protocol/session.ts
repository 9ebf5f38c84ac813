import type { ClientCapabilities, Connection, TextDocuments } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { spreadsheetRead } from '../tables/xlsx/spreadsheet';
import { type LineTable, linesOf } from '../text/lines';
import type { Analysis, Workspace } from '../workspace/workspace';
import type { Shown } from './diagnostics';
import type { Faults } from './faults';
import type { Repository } from './repository';

/** What the editor said of itself at the start. */
export interface EditorOptions {
  /** What a rule's page is found under; null: the editor shows no pages. */
  readonly rulePages: string | null;
  /** It can put a question to the person before it makes an edit. */
  readonly asks: boolean;
  /** Commands of its own by which it shows things: a drawing, a plan. */
  readonly shows: readonly string[];
  /** It tells where its cursor is: a row is judged when it is typed. */
  readonly tellsCursor: boolean;
  /** It comes back for the edit of an action that was chosen. */
  readonly resolvesEdits: boolean;
  /** It answers what stands in a file. */
  readonly readsFiles: boolean;
  /** Where a worker finds the script that reads spreadsheets. */
  readonly spreadsheets: string | null;
}

/** Reads a spreadsheet by what is loaded for it. @param script where that is, as the editor says; null: beside the program */
export type SpreadsheetReader = (
  bytes: Uint8Array,
  script: string | null,
) => ReturnType<typeof spreadsheetRead>;

/** What the editor's user may choose, under `framewright`. */
export interface Configuration {
  readonly severity?: Record<string, string>;
  readonly refreshSummariesOnSave?: boolean;
  readonly checkWholeWorkspace?: boolean;
  readonly [setting: string]: unknown;
}

/** One editor's session, as its features see it. */
export interface Session {
  readonly connection: Connection;
  readonly documents: TextDocuments<TextDocument>;
  readonly workspace: Workspace;
  options(): EditorOptions;
  configuration(): Configuration;
  /** What the editor can do, by its own word. */
  able(): ClientCapabilities;
  /** Not so the old side of a comparison, and whatever else an editor shows that no file is. */
  isFile(uri: string): boolean;
  /** The analysis of a document as it stands now; null where it cannot be read or is no file. */
  current(uri: string): Promise<Analysis | null>;
  /**
   * The same as it is shown: without the row that is being typed. For whatever decides or edits, `current` is asked. Of an
   * earlier revision of a file that is shown beside it: as it stands, judged by what it rested on then.
   */
  shown(uri: string): Promise<Shown | null>;
  /** @param line null: in none of its lines, or what was typed is to be judged now */
  cursorAt(uri: string, line: number | null): void;
  /** Tells of every open document that was looked at again, as it or a file that it was made from changed. */
  onLooked(listener: (uri: string) => void): void;
  /** Tells of every file that changed, was opened, closed or deleted, whether anyone looks at it or not. */
  onChanged(listener: (uri: string) => void): void;
  /** The folders that the editor has open. */
  roots(): readonly string[];
  /** All files in them. */
  readonly repository: Repository;
  readonly faults: Faults;
  /** Null: none can be read. */
  readonly spreadsheets: SpreadsheetReader | null;
  /** Lists them and looks at them anew. */
  checkAll(): void;
}

/** The analysis of a document with its lines, for a question about a place in it. */
export async function asked(
  session: Session,
  uri: string,
): Promise<{ analysis: Analysis; lines: LineTable } | null> {
  const analysis = await session.current(uri);
  return analysis && { analysis, lines: linesOf(analysis.text) };
}

/** What is shown of a document, with its lines. */
export async function seen(session: Session, uri: string): Promise<(Shown & { lines: LineTable }) | null> {
  const shown = await session.shown(uri);
  return shown && { ...shown, lines: linesOf(shown.analysis.text) };
}
