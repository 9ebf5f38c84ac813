import { Uri } from 'vscode';

/** A file as an editor's menu, a line of a list and the server name it to a command. */
export type NamedFile = Uri | { readonly uri: string } | string | undefined;

export function uriOf(named: NamedFile): Uri | undefined {
  if (named === undefined || named instanceof Uri) return named;
  return Uri.parse(typeof named === 'string' ? named : named.uri);
}
