/** `*.readings.yaml`: one job, what was measured and done, in order. Explained in `schemas/README.md`. */
import * as z from 'zod';
import {
  band,
  chassisHashPattern,
  conditions,
  date,
  id,
  judgingVersion,
  sealPattern,
  text,
  threeDirections,
  units,
} from './common';
import { instrumentSchema, timelineEntrySchema } from './timeline';

export const axesSchema = threeDirections('left').describe(
  'What the instrument’s three numbers mean, in its own frame: one of forward/rearward, left/right and up/down each, ' +
    'in the instrument’s order. The middle one may be outboard, where the instrument’s zero width is the car’s centre.',
);

export const baseSchema = z
  .union(
    [
      z.literal('auto'),
      z.array(id),
      z.strictObject({ between: band.describe('[from, to] in length, in the file’s unit.') }),
    ],
    {
      error: 'expected auto, a list of points, or a zone such as { between: [-800, 1300] }',
    },
  )
  .meta({ default: 'auto' })
  .describe(
    'What the car is aligned on: auto (search among all control points), a list of points taken as given, or ' +
      '{ between: [from, to] }: search in the zone of length taken as undamaged.',
  );

export const acceptedSchema = z
  .strictObject({
    point: id.describe('A point that is undecided.'),
    reason: text.describe('Why it is accepted.'),
  })
  .describe('An undecided point that is accepted, and why.');

const signatureShape = {
  by: text.describe('Who signs.'),
  date: date.describe('When, such as 2026-03-05.'),
  readings: z
    .string()
    .regex(sealPattern, { error: 'expected seal1- and 16 hexadecimal digits in lower case' })
    .optional()
    .describe(
      'The seal over what was judged: seal1- and 16 digits. With it `chassis` is a seal too. The program writes it.',
    ),
  chassis: z
    .string()
    .regex(new RegExp(`${chassisHashPattern.source}|${sealPattern.source}`), {
      error: 'expected seal1- and 16 hexadecimal digits in lower case, or sha256- and at least 8',
    })
    .describe(
      'The seal over the chassis as this job uses it: seal1- and 16 digits. Older signatures without `readings` hold sha256- and the ' +
        'first 8 digits or more, over the chassis file and those that it extends. The program writes it.',
    ),
  'judged-by': judgingVersion
    .optional()
    .meta({ default: '0.1' })
    .describe(
      'The version of the program that the job was judged by when it was signed. Rules that are newer warn and refuse nothing. ' +
        'Absent: 0.1. The program writes it.',
    ),
  accepted: z
    .array(acceptedSchema)
    .optional()
    .describe('Undecided points that are accepted, each with a reason.'),
};

interface Sealed {
  readonly readings?: string;
  readonly chassis: string;
}

const bothOrNone = ({ readings, chassis }: Sealed): boolean =>
  (readings !== undefined) === sealPattern.test(chassis);
const sealsTogether = {
  error: 'both `readings` and `chassis` hold a seal (seal1-), or neither does',
  path: ['chassis'],
};
const sealsTogetherJson = {
  oneOf: [
    {
      required: ['readings'],
      properties: { chassis: { pattern: sealPattern.source, description: 'A seal, beside `readings`.' } },
    },
    {
      not: { required: ['readings'] },
      properties: {
        chassis: { pattern: chassisHashPattern.source, description: 'A fingerprint, without `readings`.' },
      },
    },
  ],
};

export const signOffSchema = z
  .strictObject({
    ...signatureShape,
    earlier: z
      .array(
        z
          .strictObject(signatureShape)
          .refine(bothOrNone, sealsTogether)
          .meta({
            ...sealsTogetherJson,
            description: 'A signature that a later one took the place of.',
          }),
      )
      .optional()
      .describe(
        'Earlier signatures of this job, the oldest first. The program moves them here when a job is signed again.',
      ),
  })
  .refine(bothOrNone, sealsTogether)
  .meta({
    ...sealsTogetherJson,
    description:
      'Closes the job. It covers dimensions only: not welds, corrosion protection, alignment or calibrations.',
  });

export const readingsSchema = z
  .strictObject({
    framewright: z
      .literal('readings/1')
      .describe('The kind of file and its version: readings/1. The first line.'),
    chassis: z.string().min(1).describe('The path of the chassis file, from this file’s folder.'),
    order: text.optional().describe('The number of the work order.'),
    technician: text.optional().describe('Who measures and does the work.'),
    units: units.optional(),
    instrument: instrumentSchema.optional(),
    axes: axesSchema.optional(),
    base: baseSchema.optional(),
    conditions: conditions.optional(),
    anchors: z
      .array(id)
      .optional()
      .describe('The points near which the body is held to the bench. A name without a side means both.'),
    scope: z
      .array(id)
      .optional()
      .describe(
        'The parts to be judged. A name without a side means both. Absent: the parts worked on or ever read.',
      ),
    timeline: z
      .array(timelineEntrySchema)
      .describe('What was measured, seen and done, in the order of the work.'),
    'sign-off': signOffSchema.optional(),
  })
  .meta({
    title: 'Framewright readings file',
    description: 'One job: what was measured and done, in order.',
  });

/** The schema of each top-level key, for a file that is checked key by key. */
export const readingsKeys = readingsSchema.shape;
/** The keys that a file must have. */
export const readingsRequired = ['framewright', 'chassis', 'timeline'] as const;

export type ReadingsFile = z.infer<typeof readingsSchema>;
export type BaseEntry = z.infer<typeof baseSchema>;
export type AxesEntry = z.infer<typeof axesSchema>;
export type SignOffEntry = z.infer<typeof signOffSchema>;
