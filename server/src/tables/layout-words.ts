import { plainOrQuoted } from '../text/edits';
import type { Delimiter } from './table-grid';
import { numberColumns } from './table-layout';
import type { TableRead } from './table-reading';

const parted: Record<Delimiter, string> = {
  ',': 'commas',
  ';': 'semicolons',
  '\t': 'tabs',
  '|': 'bars',
  blanks: 'blanks',
  sheet: 'a spreadsheet',
};

/** How a table was understood, for a person to look at: one line. */
export function understoodAs({ grid, layout }: TableRead): string {
  const { columns, decimal, unit, axes } = layout;
  const cells = grid.rows[layout.heading]?.cells;
  const named = (column: number): string => cells?.[column]?.trim() || `column ${column + 1}`;
  const words = [
    `${grid.delimiter === 'sheet' ? '' : 'cells parted by '}${parted[grid.delimiter]}`,
    `decimal ${decimal}`,
    `point: ${named(columns.point ?? 0)}`,
    ...(columns.side === undefined ? [] : [`side: ${named(columns.side)}`]),
    `numbers: ${numberColumns(columns).map(named).join(', ')}`,
    ...(unit === null ? [] : [`in ${unit}`]),
    axes === null ? 'counted as the file counts' : `counted ${axes.join(', ')}`,
  ];
  return words.join('; ');
}

/** The layout that was guessed, as it would stand under `tables:` of the settings. */
export function layoutLines(name: string, { grid, layout }: TableRead): string[] {
  const { columns, decimal, unit } = layout;
  const cells = grid.rows[layout.heading]?.cells;
  const column = (at: number): string => {
    const heading = cells?.[at]?.trim() ?? '';
    const isOne = cells?.filter((cell) => cell.trim().toLowerCase() === heading.toLowerCase()).length === 1;
    return heading !== '' && isOne ? plainOrQuoted(heading, 'flow') : String(at + 1);
  };
  const [length, width, height] = numberColumns(columns);
  const held = {
    point: columns.point ?? 0,
    side: columns.side,
    length,
    width,
    height,
    remark: columns.remark,
  };
  const pairs = Object.entries(held).flatMap(([key, at]) =>
    at === undefined ? [] : [`${key}: ${column(at)}`],
  );
  const skip = layout.heading < 0 ? layout.from : layout.heading;
  return [
    `${plainOrQuoted(name)}:`,
    `  columns: { ${pairs.join(', ')} }`,
    `  decimal: ${decimal}`,
    ...(unit === null ? [] : [`  units: ${unit}`]),
    ...(skip > 0 ? [`  skip: ${skip}`] : []),
  ];
}
