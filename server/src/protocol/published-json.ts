import type {
  Diagnostic,
  Message,
  NotificationMessage,
  PublishDiagnosticsParams,
} from 'vscode-languageserver';

/** Of one diagnostic, as it was written last. */
interface Written {
  readonly message: string;
  readonly severity: Diagnostic['severity'];
  readonly code: Diagnostic['code'];
  readonly source: Diagnostic['source'];
  readonly page: string | undefined;
  readonly tags: string | undefined;
  /** All that follows its range. */
  readonly json: string;
}

/**
 * What an editor is told of an open document, as JSON in ASCII: a few of hundreds of diagnostics differ from those of the edit before,
 * and most of these by their place alone. All but the place is kept from one edit to the next, by the message.
 */
export class PublishedJson {
  private readonly documents = new Map<string, ReadonlyMap<string, Written>>();

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
    const last = this.documents.get(uri);
    const written = new Map<string, Written>();
    const empty = inAscii({ ...envelope, method, params: { ...document, diagnostics: [] } });
    const pieces = [empty.slice(0, -end.length)];
    for (const each of diagnostics) {
      const before = pieces.length === 1 ? '' : ',';
      const known = writtenOf(each, last);
      if (known === null) {
        pieces.push(before + inAscii(each));
        continue;
      }
      written.set(known.message, known);
      // to join the two would copy what is kept
      pieces.push(before + placeOf(each), known.json);
    }
    pieces.push(end);
    this.documents.set(uri, written);
    return pieces;
  }
}

/** Of a message that has no diagnostics: the brackets and braces around where they would stand. */
const end = ']}}';

/** Null where more than the diagnostic's own place may have moved. */
function writtenOf(diagnostic: Diagnostic, last: ReadonlyMap<string, Written> | undefined): Written | null {
  const { severity, code, codeDescription, source, message, tags } = diagnostic;
  if (
    typeof message !== 'string' ||
    diagnostic.relatedInformation !== undefined ||
    diagnostic.data !== undefined
  )
    return null;
  const page = codeDescription?.href;
  const tagged = tags?.join();
  const known = last?.get(message);
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
  return { message, severity, code, source, page, tags: tagged, json: inAscii(rest).slice(1) };
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
