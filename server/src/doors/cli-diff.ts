import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type DiffFormat, type DiffOutput, diff } from '../commands/diff';
import { plainLines } from '../commands/textconv';
import { type AskedDiff, comparingOf } from '../node/compared-revisions';
import { codeOf, messageOf } from '../node/error-code';
import { externalDiff } from '../node/git-diff';

/** The commands that compare, as the command line loads them. */

export async function diffed(asked: AskedDiff, format: DiffFormat, output: DiffOutput): Promise<number> {
  const comparing = await comparingOf(process.cwd(), asked).catch(
    (error) => `git cannot tell what changed: ${messageOf(error)}`,
  );
  if (typeof comparing !== 'string') return diff(comparing, format, output);
  output.complain(`framewright: ${comparing}`);
  return 2;
}

interface Terminal extends DiffOutput {
  wrongUsage(message: string): number;
}

/** Exit code 0 whatever is found: another one ends all of `git diff`. */
export async function gitDiffed(args: readonly string[], terminal: Terminal): Promise<number> {
  if (![1, 7, 9].includes(args.length))
    return terminal.wrongUsage('git-diff needs the 1, 7 or 9 arguments that git gives');
  for (const line of await externalDiff(process.cwd(), args)) terminal.print(line);
  return 0;
}

/** Exit code 2 where the file cannot be read. */
export function textConverted(file: string, output: DiffOutput): number {
  try {
    const text = readFileSync(file, 'utf8');
    for (const line of plainLines(pathToFileURL(resolve(file)).href, text)) output.print(line);
    return 0;
  } catch (error) {
    output.complain(`framewright: ${file} cannot be read: ${codeOf(error) ?? messageOf(error)}`);
    return 2;
  }
}
