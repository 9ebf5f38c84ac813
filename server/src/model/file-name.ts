/** Last part of a URI, decoded, as a person names the file. */
export const fileName = (uri: string): string => decoded(uri.slice(uri.lastIndexOf('/') + 1));

/** A URI or a part of one with its escapes resolved; a piece between two slashes stays as it stands where it has a stray %. */
export function decoded(text: string): string {
  if (!text.includes('%')) return text;
  try {
    return decodeURIComponent(text);
  } catch {
    return text.includes('/') ? text.split('/').map(decoded).join('/') : text;
  }
}
