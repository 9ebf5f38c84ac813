/**
 * What `framewright inspect --json` prints: the contract of other tools, hence versioned. Lengths in mm, angles in
 * degrees, vectors [forward, left, up] in vehicle axes, whatever the file's unit. What cannot be observed or judged is
 * null, never 0.
 */
import * as z from 'zod';
import { decisionRules, ruleNamePattern } from './settings';

const line = z.int().min(1).describe('The line in the file, counted from 1.');
const position = z.int().min(0);
const figure = z.number().nullable();
const vector = z.tuple([z.number(), z.number(), z.number()]);
const partialVector = z
  .tuple([figure, figure, figure])
  .describe('[forward, left, up] in vehicle axes; null on an axis that cannot be observed or judged.');
const mm = (words: string) => figure.describe(`${words}, mm; null where it cannot be observed.`);
const standard = figure.describe('Standard uncertainty of the figure before it, in its unit.');
const limits = z.tuple([z.number(), z.number()]).describe('[lower, upper] limit of the deviation, mm.');
const axisLimits = z
  .tuple([limits, limits, limits])
  .describe('[lower, upper] limit of the deviation on each vehicle axis, mm.');

export const verdicts = ['within', 'outside', 'undecided', 'unjudged'] as const;
const verdict = z
  .enum(verdicts)
  .describe('within or outside for certain, undecided, or unjudged where it cannot be said at all.');

const findingSchema = z.strictObject({
  rule: z
    .string()
    .regex(ruleNamePattern)
    .describe('The rule’s name; `framewright explain RULE` prints its page.'),
  severity: z.enum(['error', 'warning', 'information']),
  message: z.string().describe('The finding in words.'),
  ignored: z.string().nullable().describe('The reason where a comment in the file silences it, else null.'),
  range: z
    .strictObject({
      start: z.strictObject({ line: position, character: position }),
      end: z.strictObject({ line: position, character: position }),
    })
    .describe('Lines and UTF-16 characters counted from 0, as in the Language Server Protocol.'),
});

export const alternativeKinds = ['points', 'zones', 'shift', 'body', 'lean', 'turn'] as const;
const candidateBase = z.strictObject({
  base: z.array(z.string()),
  moved: z.array(z.string()),
  kind: z
    .enum(alternativeKinds)
    .optional()
    .describe(
      'By what these are told apart: single points, two zones, or a story: moved or turned as one body, or a floor that leans ' +
        'or turns more and more along the length.',
    ),
});

const witnessesSchema = z
  .strictObject({
    scatter: z
      .number()
      .min(0)
      .describe('How far such points of sound cars are taken to scatter, standard, mm: assumed, or raised.'),
    groups: z
      .array(
        z.strictObject({
          name: z.string().describe('Of the part, or of the end of the car that they share an error with.'),
          points: z.array(z.string()),
          weight: z.number().min(0).max(1).describe('How far it is believed.'),
          off: vector.describe('Where its mean stands by everything else, mm.'),
          uncertainty: vector.describe('Standard uncertainty of that, mm.'),
        }),
      )
      .describe('What may share an error, by name.'),
  })
  .describe('Only where points that are no control points and that nobody has in question help to align.');

const alignmentSchema = z.strictObject({
  base: z.array(z.string()).describe('The points that the stage is aligned on.'),
  moved: z.array(z.string()).describe('Control points found to have moved.'),
  alternatives: z.array(candidateBase).describe('Other bases that explain the readings as well.'),
  inherited: z.string().nullable().describe('The earlier stage whose alignment is used, or null.'),
  rms: figure.describe('Weighted root mean square of the base’s residuals, mm.'),
  scale: figure.describe('Best scale from readings to reference; 1 where the units are right.'),
  mirrored: z.boolean().nullable().describe('Whether the readings are a mirror image of the reference.'),
  rotation: z
    .tuple([vector, vector, vector])
    .nullable()
    .describe('Rows of the matrix in: measured = rotation · reading + translation.'),
  translation: vector.nullable().describe('mm.'),
  doubted: z
    .literal(true)
    .optional()
    .describe(
      'Only where what stands around so few control points contradicts them; the stage is provisional.',
    ),
  witnesses: witnessesSchema.optional(),
});

const contradictory = z
  .boolean()
  .optional()
  .describe('Only where the repeats contradict each other: undecided at best, whatever their mean.');

const pointResultSchema = z.strictObject({
  id: z.string(),
  line,
  inBase: z.boolean().describe('Whether the alignment rests on it; it is then judged by the others.'),
  reference: vector.describe('Reference position in vehicle axes, mm.'),
  witness: z
    .number()
    .min(0)
    .max(1)
    .optional()
    .describe(
      'Only of a point that is no control point and helps to align: how far it is believed. It is judged by all but its group.',
    ),
  measured: partialVector.nullable().describe('Measured position in vehicle axes, mm.'),
  deviation: partialVector.describe(
    'Measured minus reference, mm; of a point that helps to align, by the others; null on an axis that cannot be judged.',
  ),
  uncertainty: partialVector.describe('Standard uncertainty of the deviation, mm.'),
  limits: axisLimits,
  conformity: partialVector.describe(
    'The probability on each axis that the true deviation is within its limits.',
  ),
  verdict,
  contradictory,
  direction: vector
    .nullable()
    .optional()
    .describe('Only where a job has distances alone: unit vector of the best-known direction.'),
  directionUncertainty: figure.optional().describe('Standard uncertainty in that direction, mm.'),
});

const spanResultSchema = z.strictObject({
  from: z.string(),
  to: z.string(),
  line,
  reference: figure.describe('The listed distance, or that of the two reference positions, mm.'),
  measured: figure.describe('mm.'),
  deviation: figure.describe('Measured minus reference, mm.'),
  uncertainty: standard,
  limits,
  conformity: figure.describe('The probability that the true deviation is within its limits.'),
  verdict,
  contradictory,
});

const stationSchema = z.strictObject({
  at: z.number().describe('Reference coordinate along the part, mm.'),
  shift: partialVector,
  shiftUncertainty: partialVector,
  twist: figure.describe('About the part’s own way, degrees.'),
  twistUncertainty: standard,
});

const partResultSchema = z.strictObject({
  id: z.string(),
  shift: partialVector.describe('Mean shift of the part, mm.'),
  shiftUncertainty: partialVector,
  yaw: figure.describe('Degrees, + nose to the left.'),
  yawUncertainty: standard,
  pitch: figure.describe('Degrees, + nose down.'),
  pitchUncertainty: standard,
  twist: figure.describe('Degrees, + the top leans right.'),
  twistUncertainty: standard,
  stretch: mm('How much longer (+) or shorter (−) the part has become'),
  stretchUncertainty: standard,
  residual: mm(
    'Root mean square of the residuals of a rigid motion: small where the part moved, large where it bent',
  ),
  stations: z.array(stationSchema),
  bow: z
    .strictObject({
      sideways: mm('Largest offset from the chord, sideways'),
      vertical: mm('The same, vertical'),
    })
    .describe('Null below three stations.'),
  bend: z
    .strictObject({
      at: z
        .number()
        .describe(
          'Where the bend starts, as the corner of two straight courses: reference coordinate along the part, mm.',
        ),
      atUncertainty: z.number().describe('Standard, of that corner, by the readings alone.'),
      atInterval: z
        .tuple([z.number(), z.number()])
        .describe(
          'Where the metal begins to bend, at 95 %: lower, upper coordinate along the part, mm. Allows for the length of the hinge.',
        ),
      sideways: figure.describe('Slope going away from the base, degrees, + left.'),
      sidewaysUncertainty: standard,
      vertical: figure.describe('Slope going away from the base, degrees, + up.'),
      verticalUncertainty: standard,
    })
    .nullable()
    .describe('Null where no bend is declared.'),
});

export const bodyConditions = [
  'mash',
  'left-mash',
  'right-mash',
  'sidesway',
  'sag',
  'high',
  'diamond',
  'twist',
] as const;

const tipsSchema = z.strictObject({
  length: mm('Mean shift forward'),
  lengthUncertainty: standard,
  sideways: mm('Mean shift to the left'),
  sidewaysUncertainty: standard,
  height: mm('Mean shift up'),
  heightUncertainty: standard,
  left: vector.describe('Mean shift of the left side, mm.'),
  leftUncertainty: vector.describe('Standard, with the scatter of a sound body, mm.'),
  right: vector.describe('Mean shift of the right side, mm.'),
  rightUncertainty: vector.describe('Standard, with the scatter of a sound body, mm.'),
});

const zoneSchema = z.strictObject({
  length: mm('Mean shift forward'),
  lengthUncertainty: standard,
  sideways: mm('Mean shift to the left'),
  sidewaysUncertainty: standard,
  height: mm('Mean shift up'),
  heightUncertainty: standard,
  diamond: mm('Shift forward of the left side minus that of the right'),
  diamondUncertainty: standard,
  twist: figure.describe('Degrees, + the top leans right.'),
  twistUncertainty: standard,
  tips: tipsSchema.describe('The same at the end of the zone, where its outermost points stand.'),
  conditions: z.array(z.enum(bodyConditions)).describe('The conditions that are certain enough to be named.'),
});

const stageSchema = z.strictObject({
  name: z.string(),
  line,
  underTension: z.boolean(),
  provisional: z.boolean().describe('The base is not settled: every figure may change.'),
  alignment: alignmentSchema
    .nullable()
    .describe('Null where the stage has distances alone or could not be aligned.'),
  points: z.array(pointResultSchema).describe('In file order.'),
  unreachable: z.array(z.string()),
  asBefore: z.array(z.string()).describe('Points that were not read again: their earlier readings count.'),
  spans: z.array(spanResultSchema),
  parts: z.array(partResultSchema).describe('By id.'),
  body: z
    .strictObject({
      front: zoneSchema.nullable().describe('The zone ahead of the base.'),
      rear: zoneSchema.nullable().describe('The zone behind the base.'),
    })
    .nullable()
    .optional(),
});

const springBackSchema = z.strictObject({
  part: z.string(),
  relieved: z.boolean(),
  pulls: z.int().min(0),
  ratio: figure.describe('Recovery as a share of the move.'),
  ratioUncertainty: standard,
  recovery: mm('Mean recovery'),
  recoveryRange: z
    .tuple([z.number(), z.number()])
    .nullable()
    .describe('Least and largest recovery seen, mm.'),
});

const signOffResultSchema = z.strictObject({
  closed: z.boolean(),
  passes: z.boolean().nullable().describe('Null where it cannot be concluded.'),
  rule: z.enum(decisionRules),
  remaining: z.array(z.string()).describe('What stands against it, in words.'),
});

export const inspectJobSchema = z.strictObject({
  path: z.string().describe('As given on the command line.'),
  chassis: z.string().nullable().describe('As the job names it: relative to the job file’s folder.'),
  order: z.string().nullable(),
  closed: z.boolean(),
  stages: z.array(stageSchema),
  springBack: z.array(springBackSchema),
  signOff: signOffResultSchema.nullable(),
  findings: z.array(findingSchema),
});

export const inspectChassisSchema = z.strictObject({
  path: z.string().describe('As given on the command line.'),
  vehicle: z.string().nullable(),
  points: z.array(
    z.strictObject({ id: z.string(), line, reference: vector, base: z.boolean(), limits: axisLimits }),
  ),
  findings: z.array(findingSchema),
});

export const inspectSchema = z
  .strictObject({
    framewright: z.literal('inspect/1'),
    files: z.array(z.union([inspectJobSchema, inspectChassisSchema])),
  })
  .meta({
    title: 'Output of framewright inspect --json',
    description:
      'Lengths in mm, angles in degrees, vectors [forward, left, up] in vehicle axes, whatever the file’s unit. What ' +
      'cannot be observed or judged is null, never 0.',
  });

export type InspectOutput = z.infer<typeof inspectSchema>;
export type InspectJob = z.infer<typeof inspectJobSchema>;
export type InspectChassis = z.infer<typeof inspectChassisSchema>;
export type InspectStage = z.infer<typeof stageSchema>;
export type InspectAlignment = z.infer<typeof alignmentSchema>;
export type InspectWitnesses = z.infer<typeof witnessesSchema>;
export type InspectPoint = z.infer<typeof pointResultSchema>;
export type InspectSpan = z.infer<typeof spanResultSchema>;
export type InspectPart = z.infer<typeof partResultSchema>;
export type InspectStation = z.infer<typeof stationSchema>;
export type InspectZone = z.infer<typeof zoneSchema>;
export type InspectSpringBack = z.infer<typeof springBackSchema>;
export type InspectSignOff = z.infer<typeof signOffResultSchema>;
export type InspectFinding = z.infer<typeof findingSchema>;
