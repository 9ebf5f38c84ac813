import { decoded } from '../model/file-name';

/** A path as written in a file, resolved from the file's own folder. Back slashes count as slashes. */
export function resolvedUri(fromFileUri: string, path: string): string {
  const encoded = path
    .replaceAll('\\', '/')
    .split('/')
    .map((segment) => encodeURIComponent(segment).replaceAll('%3A', ':'))
    .join('/');
  try {
    return new URL(encoded, fromFileUri).href;
  } catch {
    return fromFileUri;
  }
}

/** The folder of a file or folder URI, with its closing slash. */
export const folderOf = (uri: string): string => uri.slice(0, uri.replace(/\/$/, '').lastIndexOf('/') + 1);

/** `file`, `vscode-vfs` …: what stands before the first colon. */
export const schemeOf = (uri: string): string => uri.slice(0, Math.max(0, uri.indexOf(':'))).toLowerCase();

/** Whether paths can lead from a file: a document that was never saved may stand in no folder. */
export const hasFolder = (uri: string): boolean => /^[^:/]+:\//.test(uri);

/** One spelling of a URI, to compare it by: editors differ in what they escape and in the case of a drive's letter. */
export const canonicalUri = (uri: string): string =>
  decoded(uri).replace(/^file:\/\/\/([A-Za-z]):/, (_, drive: string) => `file:///${drive.toLowerCase()}:`);

export const isInside = (uri: string, folderUri: string): boolean => {
  const folder = canonicalUri(folderUri);
  return canonicalUri(uri).startsWith(folder.endsWith('/') ? folder : `${folder}/`);
};

/** What a person reads for a URI from another file's place: the relative path where one leads there. */
export function relativePath(fromFileUri: string, uri: string): string {
  const from = folderOf(fromFileUri).split('/');
  const to = uri.split('/');
  let same = 0;
  while (same < from.length - 1 && same < to.length - 1 && from[same] === to[same]) same++;
  if (same < 3) return decoded(uri);
  return decoded([...from.slice(same, -1).map(() => '..'), ...to.slice(same)].join('/'));
}
