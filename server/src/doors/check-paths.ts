import { existsSync } from 'node:fs';
import { relative, sep } from 'node:path';
import type { Target } from '../commands/collect';
import { pathOf } from '../node/files';
import { isBelow } from '../node/list';
import { printable } from '../text/printable';

/** Paths of a check, as a person types and reads them. */

/** Paths at which nothing is, and nothing was: a slip of the hand must not pass. */
export const strays = (paths: readonly Target[], changed: readonly string[]): string[] =>
  paths
    .filter(({ uri }) => {
      const path = pathOf(uri);
      return path === null || (!existsSync(path) && !changed.some((each) => isBelow(each, path)));
    })
    .map(({ path }) => printable(`framewright: ${path}: there is no such file`));

/** From the folder that the command was given in, as it would be typed. */
export function toldPath(uri: string): string {
  const path = pathOf(uri);
  return path === null ? uri : relative(process.cwd(), path).split(sep).join('/');
}
