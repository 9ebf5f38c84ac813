import type { Files } from './files';
import { isInside, schemeOf } from './uris';

/**
 * Whether what a path in a file leads to lies outside of what belongs together, by its path or by a link on the way.
 * @param root of the file that the path stands in; null where nothing says what belongs together
 */
export async function liesOutside(
  files: Pick<Files, 'leadsOut'>,
  uri: string,
  fromUri: string,
  root: string | null,
): Promise<boolean> {
  if (schemeOf(uri) !== schemeOf(fromUri)) return true;
  return root !== null && (!isInside(uri, root) || files.leadsOut(uri, root));
}
