/**
 * What `framewright advise --format json` prints: the contract of other tools, hence versioned. Lengths in mm whatever the file's unit. What is not
 * known is null, never 0.
 */
import * as z from 'zod';

const left = z
  .strictObject({
    point: z.string().describe('The point that is placed worst against its limit.'),
    axis: z.enum(['length', 'width', 'height']).describe('The axis on which that is.'),
    uncertainty: z.number().describe('Standard uncertainty that the alignment alone leaves there, mm.'),
    most: z
      .number()
      .describe('The most that it may leave for the point to be decided: a third of the limit, mm.'),
  })
  .nullable();

const reads = z.array(z.string()).describe('Points that are read together: both sides of a name, or one.');
const uncertainty = z.number().describe('Standard uncertainty of the instrument on each axis, mm.');
const coarse = left.describe(
  'A point that this instrument cannot decide however well the car is aligned: its reading leaves too much. Null: none.',
);
const path = z.string().describe('As given on the command line.');
const version = z.literal('advise/1');

export const adviseJobSchema = z.strictObject({
  framewright: version,
  path,
  none: z.string().nullable().describe('Why there is no advice, in words; null where there is.'),
  measure: z.string().nullable().describe('The measure that the rows go into; null: a new one.'),
  provisional: z.boolean().describe('Its base is not settled: that comes first.'),
  uncertainty: uncertainty.nullable(),
  now: left.describe('What is left by what is read already; null where nothing holds a frame yet.'),
  steps: z
    .array(
      z.strictObject({
        points: reads,
        control: z.boolean().describe('Control points; else points that help to align.'),
        checks: z.boolean().describe('Read so that the control points check each other.'),
        left: left.describe('What is left once they are read, too; null where still nothing holds a frame.'),
      }),
    )
    .describe('What to read, what brings most first.'),
  reached: z.boolean().describe('After the last step the alignment leaves no point too much.'),
  coarse,
});

export const adviseChassisSchema = z.strictObject({
  framewright: version,
  path,
  none: z.string().nullable().describe('Why there is no advice, in words; null where there is.'),
  uncertainty,
  parts: z.array(
    z.strictObject({
      name: z.string().describe('The part; both sides of one.'),
      decidable: z.boolean().describe('With all control points read once by this instrument.'),
      worst: left.describe('The point that is placed worst; null where nothing holds it.'),
      coarse,
      mostUncertainty: z
        .number()
        .nullable()
        .describe(
          'The largest standard uncertainty with which it can be decided, mm; null where none is small enough.',
        ),
      mark: z.array(reads).describe('Points that would decide it if they were marked as control points.'),
    }),
  ),
});

export const adviseSchema = z.union([adviseJobSchema, adviseChassisSchema]).meta({
  title: 'Output of framewright advise --format json',
  description:
    'Lengths in mm, uncertainties standard, whatever the file’s unit. What is not known is null, never 0.',
});

export type AdviseJob = z.infer<typeof adviseJobSchema>;
export type AdviseChassis = z.infer<typeof adviseChassisSchema>;
export type AdviseLeft = z.infer<typeof left>;
