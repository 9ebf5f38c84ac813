import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Output } from '../commands/check-selected';
import type { Target } from '../commands/collect';
import type { OptionValues } from '../commands/command-table';
import { fix } from '../commands/fix';
import { nodeFiles } from '../node/files';
import { textWritten } from '../node/write';

/** The commands that rewrite files, as the command line loads them. */

const target = (path: string): Target => ({ path, uri: pathToFileURL(resolve(path)).href });

const write = ({ path }: Target, text: string): string | null =>
  textWritten(path, text, { force: false, isOurs: () => true });

export const fixed = (
  paths: readonly string[],
  { unsafe = false, 'dry-run': dryRun = false }: OptionValues,
  output: Output,
): Promise<number> => fix(nodeFiles(), paths.map(target), { ...output, write, unsafe, dryRun });
