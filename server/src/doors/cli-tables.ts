import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Output } from '../commands/check';
import type { Target } from '../commands/collect';
import type { OptionValues } from '../commands/command-table';
import { importTable } from '../commands/import';
import { nodeFiles } from '../node/files';
import { tableFile } from '../node/table-file';
import { textWritten } from '../node/write';
import type * as spreadsheet from './spreadsheet';

/** The commands that have to do with tables, as the command line loads them. */

/** Of the command line: where it prints, and how it refuses what was typed; answers an exit code. */
interface Terminal extends Output {
  wrongUsage(message: string): number;
  /** What reads and writes spreadsheets, loaded when it is asked for. */
  spreadsheets(): typeof spreadsheet;
}

const target = (path: string): Target => ({ path, uri: pathToFileURL(resolve(path)).href });

export async function imported(
  [table]: readonly string[],
  values: OptionValues,
  terminal: Terminal,
): Promise<number> {
  const { into, measure, layout } = values;
  if (into === undefined)
    return terminal.wrongUsage('import needs the file that the rows go into: --into FILE');
  return importTable(nodeFiles(), target(into), {
    print: terminal.print,
    complain: terminal.complain,
    table: target(table),
    source: await tableFile(table, terminal.spreadsheets),
    measure: measure?.trim() || null,
    layout: layout ?? null,
    dryRun: values['dry-run'] === true,
    partial: values.partial === true,
    byPlace: values['by-place'] === true,
    write: (text) => textWritten(into, text, { force: false, isOurs: () => true }),
  });
}
