/** `*.chassis.yaml`: the reference dimensions of one body. Explained in `schemas/README.md`. */
import * as z from 'zod';
import {
  band,
  conditions,
  date,
  duration,
  id,
  joiningsOrOne,
  limitsEachWay,
  longestName,
  namePattern,
  notNegative,
  positive,
  temperature,
  text,
  threeDirections,
  triple,
  units,
} from './common';

export const steels = [
  'mild',
  'high-strength',
  'ultra-high-strength',
  'press-hardened',
  'aluminium',
  'other',
] as const;
export const straightenRules = ['freely', 'minor', 'never'] as const;
export const ways = ['length', 'width', 'height'] as const;
export const sourceKinds = ['published', 'donor', 'mirrored', 'measured'] as const;
export const fixings = ['hole', 'bolt', 'stud', 'edge', 'surface'] as const;

const name = z.string().regex(namePattern, {
  error: `expected lower-case words joined by hyphens, at most ${longestName} characters`,
});

const uncertainty = notNegative.describe(
  'How well the reference itself is known: its standard uncertainty on each axis, in the file’s unit. It joins every ' +
    'verdict about the point. A published reference has 0: its tolerance covers it.',
);

const uncertaintyByAxis = z
  .union(
    [
      notNegative,
      z.strictObject({
        length: notNegative.describe('Standard uncertainty in length, in the file’s unit.'),
        width: notNegative.describe('Standard uncertainty in width, in the file’s unit.'),
        height: notNegative.describe('Standard uncertainty in height, in the file’s unit.'),
      }),
    ],
    { error: 'expected a number of at least 0, or a map such as { length: 0.6, width: 0.6, height: 0.9 }' },
  )
  .describe(
    'How well the reference itself is known: its standard uncertainty in the file’s unit, one number for each axis or length, width and ' +
      'height each on its own. Each axis is judged by its own; the largest counts where one number is needed, as to weigh a control point. ' +
      'A published reference has 0: its tolerance covers it.',
  );

export const sheetAxesSchema = threeDirections('outboard').describe(
  'How the three numbers of this sheet count, in their order: one of forward/rearward, left/right and up/down each; the middle ' +
    'one may be outboard. Places along the car in jobs that name this file count the same way. A file that extends another has its own.',
);

export const sourceSchema = z
  .strictObject({
    kind: z
      .enum(sourceKinds)
      .describe(
        'published (the maker’s sheet), donor (another car), mirrored (from the other side) or measured (this very car).',
      ),
    reference: text
      .optional()
      .describe('Which sheet, page, car or job the figures come from, so that someone can look them up.'),
    date: date.optional().describe('The date of the sheet or of the measurement, such as 2026-01-12.'),
    uncertainty: uncertainty.optional(),
  })
  .describe('Where the reference dimensions come from. On a point it overrides the file’s.');

export const toleranceSchema = z
  .union(
    [
      positive,
      z.strictObject({
        length: limitsEachWay
          .optional()
          .describe('Tolerance in length: + forward, or as `axes` counts. In the file’s unit.'),
        width: limitsEachWay
          .optional()
          .describe(
            'Tolerance in width: + outboard on a sided point, + left on a centre point, or as `axes` counts. In the file’s unit.',
          ),
        height: limitsEachWay
          .optional()
          .describe('Tolerance in height: + up, or as `axes` counts. In the file’s unit.'),
      }),
    ],
    { error: 'expected a number above 0, or a map such as { length: 3, width: [-2, 4] }' },
  )
  .describe(
    'How far a point may be off: one number for both ways on each axis, or length, width and height each on its own as a ' +
      'number or [low, high]. An axis that is left out keeps its other tolerance, the file’s or the default. In the file’s unit; the default is 3 mm.',
  );

export const pointSchema = z
  .strictObject({
    both: triple
      .optional()
      .describe(
        '[length, width, height] of both sides: width is + outboard. Makes the points .L and .R. With `axes`: the left point where it says left, the right one where it says right.',
      ),
    left: triple
      .optional()
      .describe('[length, width, height] of the left point (.L): width is + outboard, or as `axes` counts.'),
    right: triple
      .optional()
      .describe('[length, width, height] of the right point (.R): width is + outboard, or as `axes` counts.'),
    centre: triple
      .optional()
      .describe(
        '[length, width, height] of one point on or near the centre plane: width is + left, or as `axes` counts.',
      ),
    part: id
      .optional()
      .describe(
        'The name of the part that the point is on, without a side: a sided point takes its own side’s part.',
      ),
    base: z
      .boolean()
      .optional()
      .describe('true marks a control point: one that a job may be aligned on. Default false.'),
    tolerance: toleranceSchema.optional(),
    fixing: z
      .enum(fixings)
      .optional()
      .describe('What the pointer touches: hole, bolt, stud, edge or surface.'),
    uncertainty: uncertaintyByAxis.optional(),
    source: sourceSchema.optional(),
  })
  .refine(
    (point) => {
      const sided = point.left !== undefined || point.right !== undefined;
      return [point.both !== undefined, sided, point.centre !== undefined].filter(Boolean).length === 1;
    },
    { error: 'a point has both, or left and right (either or both), or centre: exactly one of these' },
  )
  .meta({
    oneOf: [
      { required: ['both'] },
      { anyOf: [{ required: ['left'] }, { required: ['right'] }] },
      { required: ['centre'] },
    ],
    description: 'One point of the body, or a pair of them: its position and what it belongs to.',
  });

export const heatLimitSchema = z
  .union(
    [
      z.literal('never'),
      z.strictObject({
        to: temperature.describe('The highest temperature that the maker allows, such as 200 C.'),
        for: duration
          .optional()
          .describe('The longest time that the maker allows at it, such as 90 s or 2 min.'),
      }),
    ],
    { error: 'expected never, or a limit such as { to: 200 C, for: 90 s }' },
  )
  .describe('The maker’s limit on heat: never, or { to: 200 C, for: 90 s }. Absent: not recorded.');

export const partSchema = z
  .strictObject({
    sided: z
      .boolean()
      .optional()
      .describe('true: there is one on each side, named with .L and .R. Default false.'),
    along: z
      .enum(ways)
      .optional()
      .meta({ default: 'length' })
      .describe(
        'The way the part runs: length (default; a rail, a sill), width (a crossmember) or height (a pillar).',
      ),
    steel: z.enum(steels).optional().describe('What the part is made of.'),
    straighten: z
      .enum(straightenRules)
      .optional()
      .describe(
        'What the maker’s procedure allows: freely; minor (bent may be straightened, kinked may not); never (replace ' +
          'only). Absent: not recorded, which is reported when the part is worked on.',
      ),
    section: band
      .optional()
      .describe(
        '[low, high]: the band along the part in which the maker allows a cut. In the file’s unit, measured the way ' +
          'the part runs, as `axes` counts.',
      ),
    heat: heatLimitSchema.optional(),
    attached: joiningsOrOne
      .optional()
      .meta({ default: 'welded' })
      .describe(
        'How the part is joined to the body: welded (default), bonded, riveted or bolted, or a list of them. What is ' +
          'only bolted needs no join of its own after it was replaced.',
      ),
    joined: z
      .array(id)
      .optional()
      .describe(
        'The parts that it is welded or bonded to, without a side: a sided part is joined to its own side’s. It holds both ' +
          'ways. The pull plan takes joined parts together where they have to go the same way.',
      ),
    reference: text
      .optional()
      .describe('Where the maker’s procedure for this part stands: manual, page, issue.'),
  })
  .describe('One part of the body: which way it runs, what it is made of and what may be done to it.');

export const spanSchema = z
  .strictObject({
    from: id.describe('The point at one end. With `pairs`, its name without a side.'),
    to: id.describe('The point at the other end. With `pairs`, its name without a side.'),
    distance: positive.describe(
      'The distance from point to point that a tram gauge or tape reads, in the file’s unit.',
    ),
    tolerance: limitsEachWay
      .optional()
      .describe(
        'How far the distance may be off: a number each way or [low, high], in the file’s unit. Absent: the largest of ' +
          'the file’s three.',
      ),
    level: z
      .boolean()
      .optional()
      .describe(
        'true: read in the horizontal projection, the pointers at unequal height. Default false: straight from point ' +
          'to point.',
      ),
    pairs: z
      .enum(['straight', 'crossed'])
      .optional()
      .describe(
        'Two spans in one: straight (left to left, right to right) or crossed (left to right, right to left).',
      ),
  })
  .describe('A distance from point to point, as a tram gauge or tape reads it.');

export const memberSchema = z
  .strictObject({
    mounts: z
      .array(id)
      .min(1)
      .describe('The points that it is bolted to, without a side where both sides are meant.'),
  })
  .describe(
    'A stiff part that can be taken out, such as a subframe or the powertrain: `conditions` of a job say under its name ' +
      'whether it is in or out.',
  );

export const datumSchema = z
  .strictObject({
    length: text.optional().describe('In words: where length zero is.'),
    width: text.optional().describe('In words: where the centre plane is.'),
    height: text.optional().describe('In words: where the datum plane is.'),
  })
  .describe('In words, how the maker’s zero is found on the car. Read by people only.');

export const chassisSchema = z
  .strictObject({
    framewright: z
      .literal('chassis/1')
      .describe('The kind of file and its version: chassis/1. The first line.'),
    vehicle: text.optional().describe('Which vehicle this is, as the shop names it.'),
    extends: z
      .string()
      .min(1)
      .optional()
      .describe(
        'The path of another chassis file, from this one’s folder, that this one starts from. Entries given here replace ' +
          'those of the same name whole; null removes one.',
      ),
    units: units.optional(),
    axes: sheetAxesSchema.optional(),
    source: sourceSchema.optional(),
    conditions: conditions.optional(),
    datum: datumSchema.optional(),
    build: notNegative
      .optional()
      .describe(
        'How far the control points of sound cars scatter from their reference: a standard deviation, in the file’s ' +
          'unit. Default 0.5 mm.',
      ),
    'build-elsewhere': notNegative
      .optional()
      .describe(
        'How far all other points of sound cars scatter from their reference: a standard deviation, in the file’s unit. ' +
          'Decides how much those help that a job does not judge. Default 1 mm.',
      ),
    tolerance: toleranceSchema.optional(),
    parts: z
      .record(name, partSchema.nullable())
      .optional()
      .describe('The parts of the body by name: lower-case words joined by hyphens.'),
    points: z
      .record(name, pointSchema.nullable())
      .optional()
      .describe('The points of the body by name: lower-case words joined by hyphens.'),
    spans: z
      .array(spanSchema)
      .optional()
      .describe('Distances from point to point, as a tram gauge or tape reads them.'),
    members: z
      .record(name, memberSchema.nullable())
      .optional()
      .describe('Stiff parts that can be taken out, by name, with the points that they are bolted to.'),
  })
  .superRefine((file, context) => {
    if (file.extends !== undefined) return;
    for (const key of ['vehicle', 'points'] as const) {
      if (file[key] === undefined) {
        context.addIssue({
          code: 'custom',
          path: [key],
          message: `${key} is missing`,
          params: { rule: 'required' },
        });
      }
    }
  })
  .meta({
    title: 'Framewright chassis file',
    description: 'The reference dimensions of one body: points, parts, spans.',
    anyOf: [{ required: ['extends'] }, { required: ['vehicle', 'points'] }],
  });

/** The schema of each top-level key, for a file that is checked key by key. */
export const chassisKeys = chassisSchema.shape;
/** The keys that a file must have; the second list only where there is no `extends` to inherit them from. */
export const chassisRequired = ['framewright'] as const;
export const chassisRequiredUnlessExtends = ['vehicle', 'points'] as const;

export type ChassisFile = z.infer<typeof chassisSchema>;
export type SourceEntry = z.infer<typeof sourceSchema>;
export type ToleranceEntry = z.infer<typeof toleranceSchema>;
export type PointEntry = z.infer<typeof pointSchema>;
export type PartEntry = z.infer<typeof partSchema>;
export type SpanEntry = z.infer<typeof spanSchema>;
export type DatumEntry = z.infer<typeof datumSchema>;
