/** The entries of a job's timeline. The first key of an entry is its kind. Explained in `schemas/README.md`. */
import * as z from 'zod';
import {
  band,
  conditions,
  date,
  duration,
  force,
  id,
  joiningsOrOne,
  notNegative,
  positive,
  temperature,
  text,
  triple,
} from './common';

const note = text.optional().describe('A remark in free words.');
const along = z
  .number()
  .describe('Where along the part: the coordinate that runs the part’s way, in the file’s unit.');

const notZero = {
  not: { minItems: 3, items: [{ const: 0 }, { const: 0 }, { const: 0 }] },
};

export const instrumentSchema = z
  .strictObject({
    name: text.optional().describe('Which instrument it was.'),
    serial: text.optional().describe('Its serial number.'),
    calibrated: date
      .optional()
      .describe('When it was last calibrated, such as 2026-01-12. The settings say how long that holds.'),
    uncertainty: notNegative
      .optional()
      .describe(
        'The standard uncertainty of one reading on each axis, in the file’s unit. Absent: 1 mm is assumed, and reported.',
      ),
    repeatability: notNegative
      .optional()
      .describe(
        'The part of the uncertainty that averaging repeats reduces, in the file’s unit; at most the uncertainty. ' +
          'Default 0: repeats then show blunders but do not make the mean more certain.',
      ),
    'span-uncertainty': notNegative
      .optional()
      .describe(
        'The standard uncertainty of one distance, in the file’s unit. Default √2 times the uncertainty.',
      ),
  })
  .refine(
    (instrument) =>
      instrument.uncertainty === undefined ||
      instrument.repeatability === undefined ||
      instrument.repeatability <= instrument.uncertainty,
    {
      error: 'the repeatability is a part of the uncertainty and cannot be larger',
      path: ['repeatability'],
      params: { rule: 'repeatability' },
    },
  )
  .meta({ description: 'The instrument used, and how well it measures.' });

/** What may stand in place of a reading's numbers. */
export const readingWords = ['unreachable', 'as-before'] as const;

export const readingSchema = z
  .union([triple, z.array(triple).min(1), z.enum(readingWords)], {
    error: 'expected three numbers, a list of repeats of three numbers, unreachable or as-before',
  })
  .describe(
    'The instrument’s three numbers in its own frame, in the order that `axes` states and in the file’s unit; or a list ' +
      'of such triples (repeats); or unreachable; or as-before: not read again, the earlier reading counts and stays as old as it is.',
  );

export const spanReadingSchema = z
  .tuple(
    [
      id,
      id,
      z
        .union([positive, z.array(positive).min(1), z.literal('unreachable')], {
          error: 'expected a distance above 0, a list of repeats, or unreachable',
        })
        .describe('The distance in the file’s unit, a list of repeats, or unreachable.'),
    ],
    { error: 'expected [point, point, distance]' },
  )
  .describe('[point, point, distance]: one distance as the tram gauge or tape read it.');

export const measureSchema = z
  .strictObject({
    measure: text.describe('One measurement of the car: its title, such as “as received”.'),
    by: text.optional().describe('Who measured, where it was not the job’s technician.'),
    at: date.optional().describe('When: a date, or a date and time such as 2026-03-02T09:10.'),
    instrument: instrumentSchema.optional(),
    conditions: conditions.optional(),
    'set-up': z
      .enum(['same', 'new'])
      .optional()
      .describe(
        'same: neither car nor instrument was moved since the stage before; readings away from the work have to confirm ' +
          'it if the car was pulled in between. new: something was moved, so no alignment is inherited.',
      ),
    readings: z
      .record(id, readingSchema)
      .optional()
      .describe('What the instrument read at each point, by the point’s id.'),
    spans: z.array(spanReadingSchema).optional().describe('Distances read, each [point, point, distance].'),
    summary: z
      .record(z.string().min(1), text)
      .optional()
      .describe(
        'What was computed and inserted: each key a part or body and a figure, each value one line of text.',
      ),
    note,
  })
  .describe('One measurement of the car.');

export const observations = ['kink', 'buckle', 'tear', 'crack', 'corrosion', 'gap'] as const;

export const answerSchema = z
  .strictObject({
    by: text.describe('Who looked at it and decided.'),
    date: date.describe('When, such as 2026-03-05.'),
    how: text.describe('What was done about it, or why nothing need be done.'),
  })
  .describe(
    'What became of it, where the metal was not renewed: for a buckle, a gap or corrosion, and for a kink on a part that may be ' +
      'straightened freely. A tear or crack, or a kink on any other part, is closed by new metal only.',
  );

export const observeSchema = z
  .strictObject({
    observe: z
      .enum(observations)
      .describe('Something seen on the metal: kink, buckle, tear, crack, corrosion or gap.'),
    part: id.describe('The part it was seen on, with .L or .R where it is sided.'),
    at: along.optional(),
    answered: answerSchema.optional(),
    note,
  })
  .describe('Something seen on the metal. It stays open until the metal is renewed, or it is answered.');

const direction = triple
  .refine((vector) => vector.some((component) => component !== 0), { error: 'a direction is not all zeros' })
  .meta({
    ...notZero,
    description: '[forward, left, up] in vehicle axes, of any length: the way in which the chain pulls.',
  });

export const chainSchema = z
  .strictObject({
    hook: id.describe('The point that the chain pulls at, or near.'),
    direction,
    force: force.optional().describe('The force that was read, such as 18 kN.'),
  })
  .describe('One chain of a pull: where it hooks on and which way it pulls.');

export const holdSchema = z
  .union([z.strictObject({ part: id.describe('The part that is held, with its side.'), at: along }), id], {
    error: 'expected a point, or a place on a part such as { part: front-rail.L, at: 1900 }',
  })
  .describe(
    'Where the body is held against the pull: { part, at } on straight metal, or a point’s id: at or near it.',
  );

export const pullSchema = z
  .strictObject({
    pull: text.describe('A pull: its title in free words.'),
    part: id
      .optional()
      .describe(
        'The part that is pulled, with .L or .R where it is sided. Absent: the parts of the points that the chains hook on.',
      ),
    chains: z.array(chainSchema).min(1).optional().describe('The chains of the pull.'),
    hook: id.optional().describe('Short form of one chain: the point it pulls at.'),
    direction: direction
      .optional()
      .describe('Short form of one chain: [forward, left, up] in vehicle axes, of any length.'),
    force: force.optional().describe('Short form of one chain: the force that was read, such as 18 kN.'),
    hold: z
      .union([z.array(holdSchema), holdSchema], {
        error:
          'expected a point, a place on a part such as { part: front-rail.L, at: 1900 }, or a list of them',
      })
      .optional()
      .describe(
        'Where the body is held against the pull: one place or a list, each { part, at } or a point’s id.',
      ),
    plan: z
      .union([z.record(z.string().min(1), text), text], {
        error: 'expected a text, or a map of lines of text',
      })
      .optional()
      .describe('The plan that was computed and inserted: text, or a map of lines of text.'),
    note,
  })
  .refine(
    (pull) =>
      pull.chains === undefined ||
      (pull.hook === undefined && pull.direction === undefined && pull.force === undefined),
    { error: 'a pull has chains, or hook, direction and force of one chain, not both' },
  )
  .refine((pull) => (pull.hook === undefined) === (pull.direction === undefined), {
    error: 'hook and direction go together',
  })
  .refine((pull) => pull.force === undefined || pull.hook !== undefined, {
    error: 'force belongs to a hook and a direction',
  })
  .refine(
    (pull) =>
      pull.part !== undefined ||
      [pull.chains, pull.hook, pull.direction, pull.force].some((given) => given !== undefined),
    { error: 'what is pulled is not stated: a part, or the points that the chains hook on' },
  )
  .meta({
    description: 'A pull on a part. It stays under tension until it is released.',
    anyOf: ['part', 'chains', 'hook', 'direction', 'force'].map((key) => ({ required: [key] })),
    dependencies: {
      hook: { required: ['direction'] },
      direction: { required: ['hook'] },
      force: { required: ['hook'] },
      chains: {
        not: { anyOf: [{ required: ['hook'] }, { required: ['direction'] }, { required: ['force'] }] },
      },
    },
  });

const partsOrAll = z.union([id, z.array(id).min(1)], { error: 'expected a part, a list of parts, or all' });

export const relieveSchema = z
  .strictObject({
    relieve: partsOrAll.describe(
      'Parts whose stress was relieved by hammering while under tension: one part, a list, or all.',
    ),
    note,
  })
  .describe('Stress relieved by hammering while under tension.');

export const releaseSchema = z
  .strictObject({
    release: partsOrAll.describe('Parts whose pull was released: one part, a list, or all.'),
    note,
  })
  .describe('The release of a pull.');

export const sectionEnds = ['low', 'high'] as const;

export const sectionSchema = z
  .strictObject({
    section: id.describe('The part that was cut, with .L or .R where it is sided.'),
    at: z
      .union([along, band], {
        error: 'expected a number, or two numbers such as [-100, 700], the lower first',
      })
      .describe(
        'Where it was cut, along the part, in the file’s unit: one cut, or two as [low, high], between which the metal is new.',
      ),
    beyond: z
      .enum(sectionEnds)
      .optional()
      .describe(
        'With one cut on a part that runs past the base both ways, such as a sill: on which side of the cut the metal is ' +
          'new, low or high numbers.',
      ),
    note,
  })
  .refine((section) => section.beyond === undefined || !Array.isArray(section.at), {
    error: 'between two cuts the metal is new: beyond belongs to one cut',
    path: ['beyond'],
  })
  .meta({
    description:
      'A cut. The metal beyond it, seen from the base, is new; or the metal between two cuts. A join follows.',
    // two cuts and a side exclude each other
    not: {
      required: ['beyond'],
      properties: { at: { type: 'array', description: 'Two cuts: beyond belongs to one.' } },
    },
  });

export const replaceSchema = z
  .strictObject({
    replace: id.describe('The part that was replaced whole, with .L or .R where it is sided.'),
    note,
  })
  .describe('A part replaced whole.');

export const joinSchema = z
  .strictObject({
    join: z
      .union([id, z.array(id).min(1)], { error: 'expected a part, or a list of parts' })
      .describe('The part that was joined, or a list. A name without a side means both.'),
    with: joiningsOrOne
      .optional()
      .describe(
        'How: welded, bonded, riveted or bolted, or a list of them. Absent: as the part is attached.',
      ),
    to: z
      .array(id)
      .min(1)
      .optional()
      .describe('The parts that it was joined to. A name without a side means both.'),
    note,
  })
  .describe(
    'A part welded, bonded, riveted or bolted on for good. Readings of it from before, in the clamps, count no longer; unless it is ' +
      'only bolted, those of the parts in `to` neither.',
  );

export const heatSchema = z
  .strictObject({
    heat: id.describe('The part that was heated, with .L or .R where it is sided.'),
    to: temperature.optional().describe('The highest temperature reached, such as 180 C.'),
    for: duration.optional().describe('How long, such as 60 s or 2 min.'),
    note,
  })
  .describe('Heat used on a part.');

export const noteSchema = z
  .strictObject({ note: text.describe('A remark in free words.') })
  .describe('A remark.');

/** Each kind of entry by its first key. */
export const timelineSchemas = {
  measure: measureSchema,
  observe: observeSchema,
  pull: pullSchema,
  relieve: relieveSchema,
  release: releaseSchema,
  section: sectionSchema,
  replace: replaceSchema,
  join: joinSchema,
  heat: heatSchema,
  note: noteSchema,
} as const;

export type TimelineKind = keyof typeof timelineSchemas;
export const isTimelineKind = (word: string): word is TimelineKind => Object.hasOwn(timelineSchemas, word);
export const timelineKinds: readonly TimelineKind[] = Object.keys(timelineSchemas).filter(isTimelineKind);

export const timelineEntrySchema = z.union(Object.values(timelineSchemas), {
  error: `expected an entry whose first key is one of ${timelineKinds.join(', ')}`,
});

export type InstrumentEntry = z.infer<typeof instrumentSchema>;
export type ReadingEntry = z.infer<typeof readingSchema>;
export type SpanReadingEntry = z.infer<typeof spanReadingSchema>;
export type MeasureEntry = z.infer<typeof measureSchema>;
export type ObserveEntry = z.infer<typeof observeSchema>;
export type ChainEntry = z.infer<typeof chainSchema>;
export type HoldEntry = z.infer<typeof holdSchema>;
export type PullEntry = z.infer<typeof pullSchema>;
export type RelieveEntry = z.infer<typeof relieveSchema>;
export type ReleaseEntry = z.infer<typeof releaseSchema>;
export type SectionEntry = z.infer<typeof sectionSchema>;
export type ReplaceEntry = z.infer<typeof replaceSchema>;
export type JoinEntry = z.infer<typeof joinSchema>;
export type HeatEntry = z.infer<typeof heatSchema>;
export type NoteEntry = z.infer<typeof noteSchema>;
export type TimelineEntry = z.infer<typeof timelineEntrySchema>;
