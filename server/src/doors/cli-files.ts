import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Output } from '../commands/check-selected';
import type { Target } from '../commands/collect';
import type { OptionValues } from '../commands/command-table';
import { fix } from '../commands/fix';
import { formatFiles } from '../commands/format-files';
import { nodeFiles } from '../node/files';
import { textWritten } from '../node/write';
import { printable } from '../text/printable';

/** The commands that rewrite files, as the command line loads them. */

const target = (path: string): Target => ({ path, uri: pathToFileURL(resolve(path)).href });

const write = ({ path }: Target, text: string): string | null =>
  textWritten(path, text, { force: null, isOurs: () => true });

/** A difference is for another program as well: it is as the file is, but where a terminal reads it. */
const patchOutput = (output: Output): Output =>
  process.stdout.isTTY ? { ...output, print: (line) => output.print(printable(line)) } : output;

export const fixed = (
  paths: readonly string[],
  { unsafe = false, 'dry-run': dryRun = false }: OptionValues,
  output: Output,
): Promise<number> => fix(nodeFiles(), paths.map(target), { ...patchOutput(output), write, unsafe, dryRun });

export const formatted = (
  paths: readonly string[],
  { check = false }: OptionValues,
  output: Output,
): Promise<number> => formatFiles(nodeFiles(), paths.map(target), { ...output, write, check });
