import type { TableLayoutEntry } from '@framewright/schemas';
import { gridFrom, type TableFault, type TableGrid } from './table-grid';
import { guessedLayout, layoutIn, type TableLayout } from './table-layout';
import { type TableContent, tableContent } from './table-rows';

/** A table with what it says, before its names are looked up. */
export interface TableRead extends TableContent {
  readonly layout: TableLayout;
  readonly grid: TableGrid;
}

/** @param entry a layout of the settings; null: it is found in headings and numbers */
export function readTable(table: string | TableGrid, entry: TableLayoutEntry | null): TableRead | TableFault {
  const grid = typeof table === 'string' ? gridFrom(table) : table;
  if ('message' in grid) return grid;
  if (!grid.rows.some(({ cells }) => cells.some((cell) => cell.trim() !== '')))
    return { row: null, column: null, message: 'the table is empty' };
  const layout = entry === null ? guessedLayout(grid) : layoutIn(grid, entry);
  if ('message' in layout) return layout;
  const content = tableContent(grid, layout);
  if (content.rows.length === 0 && content.refused.length === 0)
    return { row: null, column: null, message: 'the table has no row with a point' };
  return { ...content, layout, grid };
}

/** Where a fault is, in words for a person. */
export const faultText = ({ row, column, message, sheet }: TableFault): string => {
  const within = sheet === undefined ? '' : `sheet ${sheet}, `;
  return row === null
    ? message
    : `${within}row ${row}${column === null ? '' : `, column ${column}`}: ${message}`;
};
