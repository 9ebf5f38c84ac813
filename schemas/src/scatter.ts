/**
 * What `framewright scatter --format json` prints: the contract of other tools, hence versioned. Lengths in mm whatever the file's unit. What is
 * not known is null, never 0.
 */
import * as z from 'zod';

const mm = z.number().describe('Standard deviation, mm.');

export const scatterSchema = z
  .strictObject({
    framewright: z.literal('scatter/1'),
    bodies: z.array(
      z.strictObject({
        path: z.string().describe('The chassis file, as it was found.'),
        cars: z.number().int().describe('Jobs that tell something of scatter.'),
        readings: z.number().int().describe('Readings that were used.'),
        leftOut: z
          .number()
          .int()
          .describe(
            'Points, parts and readings of cars that are off by more than scatter, and took no part.',
          ),
        none: z.string().nullable().describe('Why nothing is measured, in words; null where something is.'),
        scatters: z.array(
          z.strictObject({
            of: z.enum(['build', 'build-elsewhere', 'instrument']),
            name: z.string().nullable().describe('Of the instrument; null: it is of the body.'),
            cars: z.number().int().describe('Cars that it was measured on.'),
            stated: mm
              .nullable()
              .describe(
                'As the files state it, or as it is taken where they do not; null where they state several.',
              ),
            measured: mm.nullable().describe('Null where these readings do not tell it.'),
            interval: z.tuple([mm, mm]).nullable().describe('95 %, low and high.'),
            degreesOfFreedom: z.number().nullable(),
            contradicted: z.boolean().describe('What is stated lies outside the 99 % of χ².'),
          }),
        ),
      }),
    ),
  })
  .meta({
    title: 'Output of framewright scatter --format json',
    description: 'Lengths in mm, whatever the file’s unit. What is not known is null, never 0.',
  });

export type ScatterJson = z.infer<typeof scatterSchema>;
