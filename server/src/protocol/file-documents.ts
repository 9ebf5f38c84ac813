import type { TextDocuments } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { schemeOf } from '../workspace/uris';

/** Of the editor's documents those that are files. */
export type FileDocuments = Pick<TextDocuments<TextDocument>, 'get' | 'all'>;

/**
 * Whether a document is a file, on the disk or in one of the folders, or will be one. An editor also opens what is none, such as the old
 * side of a comparison: judged beside today's files it would be told of what was never wrong.
 */
export const isFile = (uri: string, roots: readonly string[]): boolean => {
  const scheme = schemeOf(uri);
  return scheme === 'file' || scheme === 'untitled' || roots.some((root) => schemeOf(root) === scheme);
};

export const fileDocuments = (
  documents: TextDocuments<TextDocument>,
  roots: () => readonly string[],
): FileDocuments => ({
  get: (uri) => (isFile(uri, roots()) ? documents.get(uri) : undefined),
  all: () => documents.all().filter(({ uri }) => isFile(uri, roots())),
});
