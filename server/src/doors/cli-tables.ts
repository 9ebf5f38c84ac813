import { writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Output } from '../commands/check-selected';
import type { Target } from '../commands/collect';
import type { OptionValues } from '../commands/command-table';
import { draw } from '../commands/draw';
import { exportTable } from '../commands/export';
import { importTable } from '../commands/import';
import { reference } from '../commands/reference';
import { sheet } from '../commands/sheet';
import { nodeFiles } from '../node/files';
import { foundChromium, picturedAsPng } from '../node/print';
import { tableFile } from '../node/table-file';
import { fileWritten, textWritten } from '../node/write';
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
    write: (text) => textWritten(into, text, { force: null, isOurs: () => true }),
  });
}

/** A table of ours begins with the names of its columns; of a spreadsheet nothing tells whose it is. */
const isOurTable = (start: Buffer): boolean => /^(order|entry|id),[a-z0-9,-]+\r\n/.test(start.toString());

export async function exported(
  files: readonly string[],
  { output, force = false, columns }: OptionValues,
  terminal: Terminal,
): Promise<number> {
  if (output === undefined || !/.\.(csv|xlsx)$/i.test(output))
    return terminal.wrongUsage('export needs a table to write: -o NAME.csv or -o NAME.xlsx');
  return exportTable(nodeFiles(), files.map(target), {
    print: terminal.print,
    complain: terminal.complain,
    columns: columns === undefined ? null : columns.split(',').map((name) => name.trim()),
    asSheets: /xlsx$/i.test(output),
    writeText: (text) => textWritten(output, text, { force, isOurs: isOurTable }),
    writeSheets: async (sheets) => {
      const bytes = await terminal.spreadsheets().spreadsheetWritten(sheets);
      return fileWritten(output, { force, isOurs: () => false }, (temporary) => {
        writeFileSync(temporary, bytes);
        return null;
      });
    },
  });
}

export async function referenced(
  jobs: readonly string[],
  { into, points, replace = false, 'dry-run': dryRun = false }: OptionValues,
  terminal: Terminal,
): Promise<number> {
  if (into === undefined)
    return terminal.wrongUsage('reference needs the chassis file that the points go into: --into FILE');
  const names = points?.split(',').map((name) => name.trim());
  if (replace && names === undefined)
    return terminal.wrongUsage('reference replaces the points that you name: --points LIST --replace');
  return reference(nodeFiles(), jobs.map(target), {
    print: terminal.print,
    complain: terminal.complain,
    into: target(into),
    names: names ?? null,
    replace,
    dryRun,
    write: (text) => textWritten(into, text, { force: null, isOurs: () => true }),
  });
}

export async function sheeted(
  [file]: readonly string[],
  { output, force = false }: OptionValues,
  terminal: Terminal,
): Promise<number> {
  if (output === undefined || !/.\.html?$/i.test(output))
    return terminal.wrongUsage('sheet needs a page to write: -o NAME.html');
  const isOurs = (start: Buffer) => start.toString().includes('<title>Sheet for the car: ');
  return sheet(nodeFiles(), target(file), {
    print: terminal.print,
    complain: terminal.complain,
    write: (page) => textWritten(output, page, { force, isOurs }),
  });
}

export async function drawn(
  [file]: readonly string[],
  { output, force = false, view = 'plan' }: OptionValues,
  terminal: Terminal,
): Promise<number> {
  if (output === undefined || !/.\.(svg|png)$/i.test(output))
    return terminal.wrongUsage('draw needs a drawing to write: -o NAME.svg or -o NAME.png');
  const isOurs = (start: Buffer) => start.toString().includes('class="fw-drawing"');
  const asPicture = (svg: string): string | null => {
    const chromium = foundChromium();
    return chromium === null
      ? `${output} was not written: no Chromium was found to make the picture with; a drawing NAME.svg needs none`
      : picturedAsPng(chromium, svg, { pngPath: output, force });
  };
  return draw(nodeFiles(), target(file), view, {
    print: terminal.print,
    complain: terminal.complain,
    write: /png$/i.test(output) ? asPicture : (svg) => textWritten(output, svg, { force, isOurs }),
  });
}
