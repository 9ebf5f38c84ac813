import type { TableQuestion } from '@framewright/schemas/wire';
import type { Settings } from '../model/read/settings';
import { type ChosenTable, chosenTable } from '../tables/editing/chosen-layout';
import { wholeLines, wholeTextLines } from '../tables/editing/followed-rows';
import { gridOfSheets } from '../tables/sheets-grid';
import { gridFrom, type TableFault, type TableGrid } from '../tables/table-grid';
import { faultText, readTable } from '../tables/table-reading';
import { tableBytes } from '../tables/table-text';
import { errorWords } from '../text/error-words';
import type { Session } from './session';

/** A table as an editor sends it, understood; or why not, with row and column. @param grows its last line may be half there */
export async function tableOf(
  session: Session,
  { bytes, layout }: Pick<TableQuestion, 'bytes' | 'layout'>,
  layouts: Settings['tables'],
  grows: boolean,
): Promise<ChosenTable | { readonly message: string }> {
  const grid = await gridOf(session, bytesFrom(bytes), grows);
  if ('message' in grid) return { message: faultText(grid) };
  const entry = layout === null ? null : layouts.get(layout);
  if (entry === undefined) return { message: `the settings have no layout ${layout}` };
  if (entry === null) {
    const chosen = chosenTable(grid, layouts);
    return 'message' in chosen ? { message: faultText(chosen) } : chosen;
  }
  const table = readTable(grid, entry);
  return 'message' in table ? { message: faultText(table) } : { table, layout };
}

async function gridOf(
  { spreadsheets, options }: Session,
  bytes: Uint8Array,
  grows: boolean,
): Promise<TableGrid | TableFault> {
  const fault = (message: string): TableFault => ({ row: null, column: null, message });
  const isSheet = tableBytes(bytes).kind === 'spreadsheet';
  const read = tableBytes(grows && !isSheet ? wholeLines(bytes) : bytes);
  if (read.kind === 'refused') return fault(read.message);
  if (read.kind === 'text') return gridFrom(grows ? wholeTextLines(read.text) : read.text);
  if (spreadsheets === null) return fault('spreadsheets cannot be read here: save it as CSV');
  try {
    const found = await spreadsheets(bytes, options().spreadsheets);
    return found.kind === 'refused' ? fault(found.message) : gridOfSheets(found.sheets);
  } catch (error) {
    return fault(`what reads spreadsheets cannot be loaded (${errorWords(error)}): save it as CSV`);
  }
}

function bytesFrom(base64: string): Uint8Array {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes;
}
