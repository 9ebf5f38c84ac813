/** Spreadsheets, as the command line loads them: only where a table is one. */
export { spreadsheetRead, spreadsheetWritten } from '../tables/xlsx/spreadsheet';
