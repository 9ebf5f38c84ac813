import {
  AnnotatedTextEdit,
  type ChangeAnnotation,
  LSPErrorCodes,
  ResponseError,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import type { FileEdits } from '../editor/navigate/file-edits';
import type { Session } from './session';

const ofSignOff = 'sign-off';

const annotation: ChangeAnnotation = {
  label: 'Update the sign-off for the changed names and paths',
  description: 'The signed hash becomes that of the chassis file with its new names; no dimension changes.',
  needsConfirmation: true,
};

/** Of the open documents, by URI. */
type Versions = ReadonlyMap<string, number>;

export const versionsOf = ({ documents }: Session): Versions =>
  new Map(documents.all().map(({ uri, version }) => [uri, version]));

/**
 * Edits of many files; where the editor can, it asks about those of sign-offs. Not every editor looks at the versions that come
 * with them: where a document was edited while the files were gone through, there is an error instead.
 * @param before taken before any file was looked at
 */
export function workspaceEditOf(
  files: readonly FileEdits[],
  session: Session,
  before: Versions,
): WorkspaceEdit {
  if (files.some(({ uri }) => session.documents.get(uri)?.version !== before.get(uri)))
    throw new ResponseError(LSPErrorCodes.ContentModified, 'a file was edited in the meantime: try again');
  const able = session.able().workspace?.workspaceEdit;
  const plain = ({ edits }: FileEdits): TextEdit[] =>
    edits.map(({ range, text }) => ({ range, newText: text }));
  if (!able?.documentChanges)
    return { changes: Object.fromEntries(files.map((file) => [file.uri, plain(file)])) };
  const asks =
    able.changeAnnotationSupport !== undefined &&
    files.some(({ edits }) => edits.some((edit) => edit.ofSignOff));
  return {
    documentChanges: files.map((file) => ({
      textDocument: { uri: file.uri, version: before.get(file.uri) ?? null },
      edits: asks ? file.edits.map(annotated) : plain(file),
    })),
    ...(asks ? { changeAnnotations: { [ofSignOff]: annotation } } : {}),
  };
}

const annotated = (edit: FileEdits['edits'][number]): TextEdit =>
  edit.ofSignOff
    ? AnnotatedTextEdit.replace(edit.range, edit.text, ofSignOff)
    : { range: edit.range, newText: edit.text };
