import type { TableLayoutEntry } from '@framewright/schemas';
import { looksLikeNumber } from '../number-cells';
import { gridFrom, type TableFault, type TableGrid } from '../table-grid';
import { readTable, type TableRead } from '../table-reading';

/** A table as it is understood where nobody says how. */
export interface ChosenTable {
  readonly table: TableRead;
  /** The layout of the settings; null: it is guessed. */
  readonly layout: string | null;
}

type Layouts = ReadonlyMap<string, TableLayoutEntry>;

/**
 * The first layout of the settings whose headings the table has; else the one that is guessed; where that leaves a doubt, the only layout
 * by numbers of columns in which every row is understood.
 */
export function chosenTable(grid: TableGrid, layouts: Layouts): ChosenTable | TableFault {
  const byHeading = [...layouts].filter(([, { columns }]) => Object.values(columns).some(isHeading));
  for (const [layout, entry] of byHeading) {
    const table = readTable(grid, entry);
    if (!('message' in table) && table.rows.length > 0) return { table, layout };
  }
  const guessed = readTable(grid, null);
  if (!('message' in guessed)) return { table: guessed, layout: null };
  const whole = [...layouts].flatMap(([layout, entry]) => {
    if (Object.values(entry.columns).some(isHeading)) return [];
    const table = readTable(grid, entry);
    return 'message' in table || table.refused.length > 0 ? [] : [{ table, layout }];
  });
  return whole.length === 1 ? whole[0] : guessed;
}

const isHeading = (column: string | number): boolean => !/^\d+$/.test(String(column));

/** A text as the cells of a table; null where it is none: no row has three numbers. */
export function tableIn(text: string): TableGrid | null {
  // of what has no such row anywhere, no cells are made
  if (!text.split(/[\r\n]+/).some((line) => (line.match(/\d+/g)?.length ?? 0) >= 3)) return null;
  const grid = gridFrom(text);
  if ('message' in grid) return null;
  return grid.rows.some(({ cells }) => cells.filter(looksLikeNumber).length >= 3) ? grid : null;
}
