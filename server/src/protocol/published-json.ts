import type {
  Diagnostic,
  Message,
  NotificationMessage,
  PublishDiagnosticsParams,
} from 'vscode-languageserver';

/** Of one diagnostic, as it was written last. */
interface Written {
  readonly severity: Diagnostic['severity'];
  readonly code: Diagnostic['code'];
  readonly source: Diagnostic['source'];
  readonly page: string | undefined;
  readonly tags: string | undefined;
  /** All that follows its range. */
  readonly json: string;
  /** The diagnostic that it was written of last, and in which publication of its document. */
  of: Diagnostic;
  publication: number;
  /** All of it, once it came a second time. */
  whole: string | null;
}

/** What was written of one document, by the message. */
interface Document {
  publication: number;
  readonly written: Map<string, Written>;
}

/**
 * What an editor is told of an open document, as JSON in ASCII: a few of hundreds of diagnostics differ from those of the edit before,
 * and most of these by their place alone. What is written is kept from one edit to the next: all of a diagnostic that is the same object
 * again, all but the place of one with the same message.
 */
export class PublishedJson {
  private readonly documents = new Map<string, Document>();

  /** Pieces that are JSON when they are put together; null where a message is of another kind, to be written as it always is. */
  piecesOf(message: Message): string[] | null {
    const { method, params, ...envelope } = message as NotificationMessage;
    if (method !== 'textDocument/publishDiagnostics') return null;
    const { diagnostics, ...document } = params as PublishDiagnosticsParams;
    const { uri, version } = document;
    // a document that is closed is told of rarely, and without a version
    if (version === undefined || diagnostics.length === 0) {
      this.documents.delete(uri);
      return null;
    }
    const known = this.documents.get(uri) ?? { publication: 0, written: new Map() };
    known.publication++;
    this.documents.set(uri, known);
    const empty = inAscii({ ...envelope, method, params: { ...document, diagnostics: [] } });
    const pieces = [empty.slice(0, -end.length)];
    for (const each of diagnostics) {
      if (pieces.length > 1) pieces.push(',');
      addDiagnostic(pieces, each, known);
    }
    pieces.push(end);
    forgetUnused(known, diagnostics.length);
    return pieces;
  }
}

/** Of a message that has no diagnostics: the brackets and braces around where they would stand. */
const end = ']}}';

function addDiagnostic(pieces: string[], diagnostic: Diagnostic, document: Document): void {
  const written = writtenOf(diagnostic, document.written);
  if (written === null) {
    pieces.push(inAscii(diagnostic));
    return;
  }
  const isSame = written.of === diagnostic && written.publication > 0;
  written.of = diagnostic;
  written.publication = document.publication;
  if (isSame) {
    written.whole ??= placeOf(diagnostic) + written.json;
    pieces.push(written.whole);
    return;
  }
  // to join the two would copy what is kept
  written.whole = null;
  pieces.push(placeOf(diagnostic), written.json);
}

/** Looked through once half of it is old. */
function forgetUnused({ written, publication }: Document, used: number): void {
  if (written.size <= 2 * used) return;
  for (const [message, each] of written) if (each.publication !== publication) written.delete(message);
}

/** Null where more than the diagnostic's own place may have moved. */
function writtenOf(diagnostic: Diagnostic, last: Map<string, Written>): Written | null {
  const { severity, code, codeDescription, source, message, tags } = diagnostic;
  if (
    typeof message !== 'string' ||
    diagnostic.relatedInformation !== undefined ||
    diagnostic.data !== undefined
  )
    return null;
  const known = last.get(message);
  if (known?.of === diagnostic) return known;
  const page = codeDescription?.href;
  const tagged = tags?.join();
  if (
    known !== undefined &&
    known.severity === severity &&
    known.code === code &&
    known.source === source &&
    known.page === page &&
    known.tags === tagged
  )
    return known;
  const { range: _, ...rest } = diagnostic;
  const json = inAscii(rest).slice(1);
  const written: Written = {
    severity,
    code,
    source,
    page,
    tags: tagged,
    json,
    of: diagnostic,
    publication: 0,
    whole: null,
  };
  last.set(message, written);
  return written;
}

const placeOf = ({ range: { start, end } }: Diagnostic): string =>
  `{"range":{"start":{"line":${start.line},"character":${start.character}},"end":{"line":${end.line},"character":${end.character}}},`;

const bytes = new TextEncoder();
const letters = new TextDecoder();

/** JSON without a character that takes more than one byte. */
const inAscii = (value: object): string => {
  const json = JSON.stringify(value).replace(
    /[\x7f-\uffff]/g,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
  // V8 goes on to hold each letter in two bytes where one of them once needed these
  return letters.decode(bytes.encode(json));
};
