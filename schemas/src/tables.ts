/** How the tables of a shop are laid out: `tables:` of the settings, a layout by its name. */
import * as z from 'zod';
import { id, threeDirections, units } from './common';

const column = z.union([z.string().min(1), z.number().int().gt(0).max(1000)], {
  error: 'expected the heading of a column, or its number from the left, from 1',
});

export const decimalMarks = ['point', 'comma'] as const;

const columnsSchema = z
  .strictObject({
    point: column.describe('The column with the name of the point: its heading, or its number from 1.'),
    side: column
      .optional()
      .describe(
        'The column with the side, where it stands in one of its own: L, R, left, right and the like.',
      ),
    length: column.describe('The column with the first number: length, as `axes` counts it.'),
    width: column.describe('The column with the second number: width, as `axes` counts it.'),
    height: column.describe('The column with the third number: height, as `axes` counts it.'),
    remark: column.optional().describe('The column with remarks: they become comments behind the rows.'),
    repeat: column
      .optional()
      .describe('The column with the number of the repeat. Rows of one point are repeats without it too.'),
    stage: column.optional().describe('The column with the name of the measure to which a row belongs.'),
  })
  .describe('Which column holds what: by its heading, or by its number from the left.');

export const tableLayoutSchema = z
  .strictObject({
    columns: columnsSchema,
    decimal: z
      .enum(decimalMarks)
      .optional()
      .describe(
        'What stands before the decimals: point or comma. Absent: found in the numbers, where they tell.',
      ),
    units: units
      .optional()
      .describe('Unit of the lengths: mm or inch. Absent: that of the file they go into.'),
    axes: threeDirections('outboard')
      .meta({ default: undefined })
      .optional()
      .describe(
        'What the columns length, width and height count towards: [forward, left, up] for example; the middle one may be ' +
          'outboard. Absent: the numbers count as the file says that they go into, in its order.',
      ),
    skip: z
      .number()
      .int()
      .nonnegative()
      .max(1000)
      .optional()
      .describe('Rows above the heading; above the first row, where columns are numbers. Absent: none.'),
    unreachable: z
      .array(z.string().min(1))
      .optional()
      .describe('What stands in place of the numbers of a point that could not be reached.'),
    names: z
      .record(z.string().min(1), id)
      .optional()
      .describe('Names as the table has them, each with the id of its point, such as rail-tip.L.'),
  })
  .describe('How one kind of table is laid out.');

export const tablesSchema = z
  .record(z.string().min(1), tableLayoutSchema)
  .describe('Layouts of the tables that measurements come in, by name.');

export type TableLayoutEntry = z.infer<typeof tableLayoutSchema>;
