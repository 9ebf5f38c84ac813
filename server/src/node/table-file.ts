import { readFileSync, statSync } from 'node:fs';
import type { TableSource } from '../commands/import';
import { largestTable, tableBytes } from '../tables/table-text';
import type { spreadsheetRead } from '../tables/xlsx/spreadsheet';
import { codeOf, messageOf } from './error-code';

/** A table of the disk; a spreadsheet is read by what is loaded for it. */
export async function tableFile(
  path: string,
  spreadsheets: () => { readonly spreadsheetRead: typeof spreadsheetRead },
): Promise<TableSource> {
  const refused = (message: string): TableSource => ({ kind: 'refused', message });
  try {
    const status = statSync(path, { throwIfNoEntry: false });
    if (status === undefined) return refused('there is no such file');
    if (!status.isFile()) return refused('it is not an ordinary file');
    if (status.size > largestTable) return refused('the table is larger than 50 MB');
    const bytes = readFileSync(path);
    const read = tableBytes(bytes);
    return read.kind === 'spreadsheet' ? await spreadsheets().spreadsheetRead(bytes) : read;
  } catch (error) {
    return refused(`it cannot be read (${codeOf(error) ?? messageOf(error)})`);
  }
}
