import type { Chassis } from '../model/chassis';
import type { TextTree } from '../text/tree';
import { bodyRows, chassisWithRows } from './into-chassis';
import type { Imported } from './job-import';
import { refusedLines } from './row-lines';
import type { TableRead } from './table-reading';

/** The rows of a table as points and distances of a body. */
export function chassisImport(
  { tree, chassis }: { readonly tree: TextTree; readonly chassis: Chassis },
  table: TableRead,
  partial: boolean,
): Imported {
  const body = bodyRows(table.rows, table.layout, chassis);
  const refused = [...table.refused, ...body.refused].sort((a, b) => a.row - b.row);
  const said = [
    `${body.points.length} points, ${body.spans.length} distances`,
    ...(body.already.length === 0
      ? []
      : [`${body.already.length} points are in the file already, with the same numbers`]),
  ];
  const comments = partial ? refusedLines(refused) : [];
  return { text: chassisWithRows(tree, chassis, body, comments), said, refused };
}
