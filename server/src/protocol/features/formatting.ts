import type { Position, Range, TextEdit } from 'vscode-languageserver';
import { editsAfterEnter } from '../../editor/complete/next-row';
import { formattingEdits } from '../../editor/format/formatting';
import { editOf } from '../convert';
import { asked, type Session } from '../session';
import type { Feature } from './feature';

/** Columns are aligned as a file is formatted, whole or in part, and as rows are typed. */
export const formatting: Feature = {
  capabilities: {
    documentFormattingProvider: true,
    documentRangeFormattingProvider: true,
    documentOnTypeFormattingProvider: { firstTriggerCharacter: '\n' },
  },
  register: (session) => {
    const { connection } = session;
    connection.onDocumentFormatting(({ textDocument }) => formatted(session, textDocument.uri));
    connection.onDocumentRangeFormatting(({ textDocument, range }) =>
      formatted(session, textDocument.uri, range),
    );
    connection.onDocumentOnTypeFormatting(({ textDocument, position }) =>
      afterEnter(session, textDocument.uri, position),
    );
  },
};

async function formatted(session: Session, uri: string, range?: Range): Promise<TextEdit[] | null> {
  const found = await asked(session, uri);
  if (found === null) return null;
  const { analysis, lines } = found;
  const offset = ({ line, character }: Position): number => lines.offsetAt(line, character);
  const within = range && { start: offset(range.start), end: offset(range.end) };
  return formattingEdits(analysis, within).map((edit) => editOf(edit, lines));
}

async function afterEnter(
  session: Session,
  uri: string,
  { line, character }: Position,
): Promise<TextEdit[] | null> {
  const found = await asked(session, uri);
  if (found === null) return null;
  const { analysis, lines } = found;
  return editsAfterEnter(analysis, lines.offsetAt(line, character)).map((edit) => editOf(edit, lines));
}
