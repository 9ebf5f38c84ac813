import { decoded } from '../model/file-name';

/**
 * A path as written in a file, resolved from the file's own folder. Back slashes count as slashes. Every text gives a URI: one that
 * can name no file gives one at which there is none.
 */
export function resolvedUri(fromFileUri: string, path: string): string {
  const segments = path.replaceAll('\\', '/').split('/').map(encodedSegment);
  // `C:\…` and `https://…` lead elsewhere; in a file's name a colon is a character like others
  if (/^[A-Za-z][A-Za-z0-9+.-]*%3A$/.test(segments[0]) && segments.length > 1)
    segments[0] = segments[0].replace('%3A', ':');
  try {
    return new URL(segments.join('/'), fromFileUri).href;
  } catch {
    return folderOf(fromFileUri) + segments.filter((each) => !/^\.{0,2}$/.test(each)).join('/');
  }
}

/** A file's name in a URI. Half of a surrogate pair, which no name has, is three bytes that stand for no character. */
export const encodedSegment = (name: string): string =>
  /\p{Cs}/u.test(name) ? [...name].map(encodedCharacter).join('') : encodeURIComponent(name);

function encodedCharacter(character: string): string {
  if (!/\p{Cs}/u.test(character)) return encodeURIComponent(character);
  const code = character.charCodeAt(0);
  const bytes = [0xe0 | (code >> 12), 0x80 | ((code >> 6) & 0x3f), 0x80 | (code & 0x3f)];
  return bytes.map((byte) => `%${byte.toString(16).toUpperCase()}`).join('');
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
