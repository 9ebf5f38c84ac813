import { titleAfter } from '../editor/actions/next-measure-action';
import { fileName } from '../model/file-name';
import type { Settings } from '../model/read/settings';
import { newChassis } from '../tables/into-chassis';
import { type Fillable, fillable, importedInto } from '../tables/into-file';
import { layoutLines, understoodAs } from '../tables/layout-words';
import { gridOfSheets, type SheetCells } from '../tables/sheets-grid';
import { faultText, readTable, type TableRead } from '../tables/table-reading';
import { printable } from '../text/printable';
import { type Files, fileKind } from '../workspace/files';
import { Workspace } from '../workspace/workspace';
import type { Output } from './check-selected';
import type { Target } from './collect';

/** A table as a door read it. */
export type TableSource =
  | { readonly kind: 'text'; readonly text: string; readonly encoding: string }
  | { readonly kind: 'sheets'; readonly sheets: readonly SheetCells[] }
  | { readonly kind: 'refused'; readonly message: string };

interface Importing extends Output {
  readonly table: Target;
  readonly source: TableSource;
  readonly measure: string | null;
  /** A layout of the settings, by its name. */
  readonly layout: string | null;
  readonly dryRun: boolean;
  readonly partial: boolean;
  readonly byPlace: boolean;
  /** Writes the file; null, or what went wrong. */
  write(text: string): string | null;
}

/** So many rows that were not understood are told one by one. */
const mostTold = 40;

/**
 * Puts a table into a job or a body. Nothing is written unless every row was understood, or `partial` says to leave the rest as comments.
 * @returns 0; 1 where rows were not understood; 2 where the table or the file cannot be read, or not written
 */
export async function importTable(files: Files, into: Target, importing: Importing): Promise<number> {
  const { source } = importing;
  const complain = (message: string, code: 1 | 2 = 2): number => {
    importing.complain(printable(`framewright: ${message}`));
    return code;
  };
  if (source.kind === 'refused') return complain(`${importing.table.path}: ${source.message}`);
  const file = await fileToFill(files, into);
  if (typeof file === 'string') return complain(`${into.path}: ${file}`);
  const entry = layoutAsked(importing.layout, file.settings);
  if (typeof entry === 'string') return complain(entry);
  const grid = source.kind === 'text' ? source.text : gridOfSheets(source.sheets);
  if (typeof grid !== 'string' && 'message' in grid)
    return complain(`${importing.table.path}: ${faultText(grid)}`);
  const table = readTable(grid, entry);
  if ('message' in table) return complain(`${importing.table.path}: ${faultText(table)}`, 1);
  tellTable(importing, table);
  const { measure, partial, byPlace } = importing;
  const unnamed = file.kind === 'readings' ? titleAfter(file.job.timeline) : '';
  const { refused, said, text } = importedInto(file, table, { measure, partial, byPlace, unnamed });
  for (const line of said) importing.print(printable(line));
  for (const each of refused.slice(0, mostTold)) {
    const rather = each.byPlace === undefined ? '' : ' (--by-place takes it for that)';
    importing.print(printable(`  ${faultText(each)}${rather}`));
  }
  if (refused.length > mostTold) importing.print(`  and ${refused.length - mostTold} more`);
  if (refused.length > 0 && !importing.partial)
    return complain(
      `${importing.table.path}: ${refused.length === 1 ? '1 row was' : `${refused.length} rows were`} not understood, so nothing was written; --partial leaves them as comments`,
      1,
    );
  if (text === null) return complain(`${into.path}: its text cannot take the rows`);
  if (importing.dryRun) return printed(importing, file.text, text);
  const fault = importing.write(text);
  if (fault !== null) return complain(fault);
  importing.print(printable(`${into.path}: written`));
  return 0;
}

/** A job or a body that may be written in; a body that is not there yet is begun. */
async function fileToFill(files: Files, { uri }: Target): Promise<Fillable | string> {
  const kind = fileKind(uri);
  if (kind === null || kind === 'settings')
    return 'a table goes into a file whose name ends in .readings.yaml or .chassis.yaml';
  const workspace = new Workspace(files);
  const read = await files.read(uri);
  if (read.kind === 'missing' && kind === 'chassis')
    workspace.setOpen(
      uri,
      newChassis(
        fileName(uri)
          .replace(/\.chassis\.ya?ml$/, '')
          .replaceAll('-', ' '),
      ),
    );
  else if (read.kind !== 'text') return read.message;
  const analysis = await workspace.analysis(uri);
  if (!('findings' in analysis)) return analysis.message;
  return fillable(analysis);
}

function layoutAsked(name: string | null, { tables }: Settings) {
  if (name === null) return null;
  return (
    tables.get(name) ??
    (tables.size === 0
      ? `the settings have no layout ${name}: there is none under \`tables:\``
      : `the settings have no layout ${name}: there are ${[...tables.keys()].join(', ')}`)
  );
}

function tellTable({ print, source }: Importing, table: TableRead): void {
  const encoding = source.kind === 'text' ? `${source.encoding}; ` : '';
  print(printable(`${encoding}${understoodAs(table)}`));
  for (const { row, why } of table.leftOut) print(printable(`  row ${row} left out: ${why}`));
  if (table.layout.isGuessed)
    for (const line of ['as a layout under `tables:` of .framewright.yaml:', ...layoutLines('table', table)])
      print(`  ${printable(line)}`);
}

/** The lines that would be new: what stands between the lines that stay, above and below. */
function printed({ print }: Importing, before: string, after: string): number {
  const [had, has] = [before.split('\n'), after.split('\n')];
  const most = Math.min(had.length, has.length);
  let above = 0;
  while (above < most && had[above] === has[above]) above += 1;
  let below = 0;
  while (below < most - above && had[had.length - 1 - below] === has[has.length - 1 - below]) below += 1;
  for (const line of has.slice(above, has.length - below)) print(line);
  print('nothing was written: --dry-run');
  return 0;
}
