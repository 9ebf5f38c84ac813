/**
 * What `framewright diff --format json` prints: the contract of other tools, hence versioned. Lengths in mm, vectors forward, left, up in
 * vehicle axes whatever the file's unit; readings are as the instrument counts. What is not known is null, never 0.
 */
import * as z from 'zod';

const triple = z.tuple([z.number(), z.number(), z.number()]);
const knownTriple = z.tuple([z.number().nullable(), z.number().nullable(), z.number().nullable()]);
const band = z.tuple([z.number(), z.number()]).describe('Lowest and highest deviation allowed, mm.');
const verdict = z.enum(['within', 'outside', 'undecided', 'unjudged']);
const status = z.enum(['added', 'dropped', 'changed']);
const path = z.string().describe('From the top of the repository, or as given on the command line.');

const change = z.strictObject({
  what: z.string().describe('What it is, in words.'),
  before: z.string().nullable().describe('In words; null: nothing was stated.'),
  after: z.string().nullable(),
});

const standing = z
  .strictObject({
    signed: z.strictObject({ by: z.string().nullable(), date: z.string().nullable() }).nullable(),
    passes: z
      .boolean()
      .nullable()
      .describe('Nothing stands against a sign-off; null: nothing can be concluded.'),
    remaining: z.array(z.string()).describe('What stands against a sign-off.'),
    accepted: z.number().describe('Undecided points that the signature accepts with a reason.'),
    ignored: z.number().describe('Findings that a comment silences with a reason.'),
    changed: z
      .array(z.enum(['readings', 'chassis']))
      .nullable()
      .describe('Which seals no longer agree; null: not signed, or nothing can be concluded.'),
  })
  .nullable()
  .describe('How the job stands; null: there is no such file on this side, or it cannot be judged.');

const figures = z.strictObject({
  deviation: knownTriple,
  uncertainty: knownTriple.describe('Standard uncertainties, mm.'),
  verdict,
});

const spanFigures = z.strictObject({ deviation: z.number(), uncertainty: z.number(), verdict });

const read = z
  .union([z.array(z.array(z.number())), z.enum(['unreachable', 'as-before'])])
  .nullable()
  .describe(
    'Each repeat as read, mm: three numbers of a point, one of a distance; null where there is none.',
  );

const reading = z.strictObject({
  name: z.string().describe('A point, or `A to B` for a distance.'),
  status: z.enum(['added', 'dropped', 'changed', 'moved']),
  before: read,
  after: read,
  from: z.string().nullable().describe('Of one that moved: the measure that it stood in.'),
});

const stage = z.strictObject({
  name: z.string(),
  was: z.string().nullable().describe('How it was called; null: as now.'),
  status: z.enum(['added', 'dropped', 'kept']),
  behind: z
    .string()
    .nullable()
    .describe('The last work before it, where it is there now; else where it was.'),
  read: z.number().describe('Rows of its readings, now; of a dropped one as they were.'),
  outside: z.array(z.string()).describe('What is outside in it, now; of a dropped one as it was.'),
  readings: z.array(reading).describe('Of a measure that is in both.'),
  points: z.array(
    z.strictObject({ point: z.string(), before: figures.nullable(), after: figures.nullable() }),
  ),
  distances: z.array(
    z.strictObject({ name: z.string(), before: spanFigures.nullable(), after: spanFigures.nullable() }),
  ),
  facts: z.array(change).describe('Base, points that moved, whether it is provisional or under load.'),
});

const entry = z.strictObject({
  entry: z.string().describe('What kind of work, and its name.'),
  status: z.enum(['added', 'dropped', 'changed', 'moved']),
  behind: z
    .array(z.string())
    .describe('Measures that stand behind it now, and did not: what they read counts as read after it.'),
  ahead: z.array(z.string()).describe('Measures that stood behind it, and do so no longer.'),
  changes: z.array(change),
});

const job = z.strictObject({
  before: standing,
  after: standing,
  afterSignature: z
    .boolean()
    .describe('It was signed, the signature is the same, and what is judged is no longer what was signed.'),
  signedAnew: z.boolean().describe('It was signed, and is signed by another signature now.'),
  head: z.array(change),
  stages: z.array(stage),
  entries: z.array(entry).describe('Of the timeline, but for measures.'),
  remains: z.strictObject({
    new: z.array(z.string()),
    gone: z.array(z.string()),
  }),
});

const point = z.strictObject({
  id: z.string(),
  status,
  before: triple.nullable(),
  after: triple.nullable(),
  shift: triple.nullable().describe('Of a point that moved: after less before, forward, left, up.'),
  distance: z.number().nullable(),
});

const limit = z.strictObject({
  id: z.string(),
  axis: z.enum(['length', 'width', 'height']),
  before: band,
  after: band,
  wider: z.boolean().describe('At either end.'),
});

const thing = z.strictObject({ id: z.string(), status, changes: z.array(change) });

const span = z.strictObject({
  from: z.string(),
  to: z.string(),
  status,
  before: z.number().nullable(),
  after: z.number().nullable(),
  limitsBefore: band.nullable(),
  limitsAfter: band.nullable(),
  wider: z.boolean(),
  changes: z.array(change).describe('What else is stated of it.'),
});

const body = z.strictObject({
  head: z.array(change),
  points: z.array(point),
  limits: z.array(limit),
  facts: z.array(thing).describe('What else is stated of points that are in both.'),
  parts: z.array(thing),
  spans: z.array(span),
});

const touched = z.strictObject({
  path,
  before: standing,
  after: standing,
  verdicts: z
    .array(z.strictObject({ name: z.string(), stage: z.string(), before: verdict, after: verdict }))
    .describe('Newest readings whose verdict is another.'),
  changedToo: z.boolean().describe('The job itself is another, too.'),
});

const file = z.strictObject({
  path,
  was: z.string().nullable().describe('How it was called; null: as now.'),
  status: z.enum(['added', 'deleted', 'renamed', 'modified']),
  meaning: z.enum(['same', 'different', 'unknown']).describe('Unknown: a side of it cannot be judged.'),
  verdict: z.string().describe('In a line.'),
  notes: z.array(z.string()).describe('What could not be had, and by what a side was judged.'),
  job: job.nullable().describe('Of a readings file; null where a side cannot be judged.'),
  chassis: body.nullable(),
  settings: z.array(change).nullable(),
  variants: z.array(
    z.strictObject({
      path,
      passes: z.array(z.string()).describe('What reaches the variant, in words.'),
      keeps: z.array(z.string()).describe('Points and parts of which nothing does: it states its own.'),
    }),
  ),
  touches: z.array(touched).describe('Jobs that rest on it and stand otherwise now.'),
  untouched: z
    .number()
    .nullable()
    .describe('Jobs that rest on it, and stand as before; null: nobody asked what rests on it.'),
});

export const diffSchema = z
  .strictObject({
    framewright: z.literal('diff/1'),
    from: z.string(),
    to: z.string(),
    meaning: z.enum(['same', 'different', 'unknown']),
    verdict: z.string().describe('In a line.'),
    files: z.array(file),
  })
  .meta({
    title: 'Output of framewright diff --format json',
    description:
      'Lengths in mm, uncertainties standard, vectors forward, left, up, whatever the file’s unit. What is not known is null, never 0.',
  });

export type Diff = z.infer<typeof diffSchema>;
export type DiffFile = z.infer<typeof file>;
export type DiffJob = z.infer<typeof job>;
export type DiffStage = z.infer<typeof stage>;
export type DiffReading = z.infer<typeof reading>;
export type DiffEntry = z.infer<typeof entry>;
export type DiffBody = z.infer<typeof body>;
export type DiffThing = z.infer<typeof thing>;
export type DiffSpan = z.infer<typeof span>;
export type DiffChange = z.infer<typeof change>;
export type DiffStanding = z.infer<typeof standing>;
export type DiffTouched = z.infer<typeof touched>;
