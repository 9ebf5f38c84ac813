/**
 * What the formats share. Each schema is strict (an unknown key is an error) and carries a description in plain
 * words, which becomes hover and completion text and the description in the generated JSON Schema.
 *
 * A rule that zod can only state as a refinement is stated a second time in `meta`, in the words of JSON Schema,
 * wherever JSON Schema has words for it; `rulesBeyondJsonSchema` lists those for which it has none.
 */
import * as z from 'zod';
import { judgingVersions } from './versions';

/** So many characters a point's or part's name may have, its side not counted. */
export const longestName = 80;
/** A point's or part's own name: lower-case words joined by hyphens, no side; not longer than `longestName`. */
export const namePattern = /^(?=.{1,80}$)[a-z0-9]+(-[a-z0-9]+)*$/;
/** A figure (group 1) and its unit (group 2); unnamed groups, because the JSON Schemas are read by other languages. */
export const temperaturePattern = /^(\d+(?:\.\d+)?) ?(C)$/;
export const durationPattern = /^(\d+(?:\.\d+)?) ?(s|min)$/;
export const forcePattern = /^(\d+(?:\.\d+)?) ?(kN|N)$/;
/** An ISO 8601 calendar date, or a date and time of day; YAML's core schema leaves either a text. */
export const datePattern =
  /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])([T ]([01]\d|2[0-3]):[0-5]\d(:[0-5]\d(\.\d+)?)?(Z|[+-][01]\d:[0-5]\d)?)?$/;
export const chassisHashPattern = /^sha256-[0-9a-f]{8,64}$/;
export const sealPattern = /^seal1-[0-9a-f]{16}$/;

/** Text; a bare number (a work order, a staff number) is kept as the text it stands for. */
export const text = z.union([z.string().min(1), z.number()], { error: 'expected a text' }).transform(String);

/** A free word or two: text, a number or true/false, all kept as text. */
export const word = z
  .union([z.string().min(1), z.number(), z.boolean()], { error: 'expected a word' })
  .transform(String);

export const date = z
  .string()
  .regex(datePattern, { error: 'expected a date such as 2026-03-05, or with a time 2026-03-05T09:10' });

export const temperature = z
  .string()
  .regex(temperaturePattern, { error: 'expected a temperature with its unit, such as 200 C' });

export const duration = z
  .string()
  .regex(durationPattern, { error: 'expected a time with its unit, such as 90 s or 2 min' });

export const force = z
  .string()
  .regex(forcePattern, { error: 'expected a force with its unit, such as 18 kN' });

/** The name of a point or part, with `.L` or `.R` where it is sided. Whether it exists is the model's question. */
export const id = z.string().min(1, { error: 'expected a name' });

/** Three finite numbers. */
export const triple = z.tuple([z.number(), z.number(), z.number()], { error: 'expected three numbers' });

export const positive = z.number().positive({ error: 'expected a number above 0' });
export const notNegative = z.number().nonnegative({ error: 'expected 0 or a number above 0' });

export const units = z
  .enum(['mm', 'inch'])
  .meta({ default: 'mm' })
  .describe('The unit of every length in this file: mm (default) or inch.');

export const directions = ['forward', 'rearward', 'left', 'right', 'up', 'down'] as const;

const lengthwise = ['forward', 'rearward'];
const crosswise = ['left', 'right', 'outboard'];
const upright = ['up', 'down'];

/** How three numbers count; `width`: the word of the middle one where none are given. */
export const threeDirections = (width: 'left' | 'outboard') =>
  z
    .tuple([z.enum(directions), z.enum([...directions, 'outboard']), z.enum(directions)], {
      error: `expected three directions such as [forward, ${width}, up]`,
    })
    .refine(
      (axes) => [lengthwise, crosswise, upright].every((axis) => axes.some((word) => axis.includes(word))),
      {
        error:
          'one direction of each: forward or rearward, left or right (or outboard in the middle), up or down',
      },
    )
    .meta({
      allOf: [lengthwise, crosswise, upright].map((axis) => ({ contains: { enum: axis } })),
      default: ['forward', width, 'up'],
    });

export const conditions = z
  .record(z.string().min(1), word)
  .describe(
    'The state of the car while measuring, as pairs of free words, such as powertrain: in. Chassis and job are compared.',
  );

/** Two numbers, the lower first. JSON Schema cannot compare them. */
export const band = z
  .tuple([z.number(), z.number()], { error: 'expected two numbers' })
  .refine(([low, high]) => low < high, {
    error: 'the lower number comes first',
    params: { rule: 'ascending' },
  });

/** How a part is joined to what it is fixed to. */
export const joinings = ['welded', 'bonded', 'riveted', 'bolted'] as const;
const joining = z.enum(joinings);
export const joiningsOrOne = z.union([joining, z.array(joining).min(1)], {
  error: 'expected welded, bonded, riveted or bolted, or a list of them',
});

/** YAML reads a version as a number. */
export const judgingVersion = z
  .union([z.enum(judgingVersions), z.literal(judgingVersions.map(Number))], {
    error: `expected one of ${judgingVersions.join(', ')}`,
  })
  .transform((version) => judgingVersions.find((each) => Number(each) === Number(version))!);

/** Limits of a deviation: at most 0 below, at least 0 above, and some room between. */
export const limits = z
  .tuple([z.number(), z.number()], { error: 'expected two numbers' })
  .refine(([low, high]) => low <= 0 && high >= 0 && low < high, {
    error: 'the first limit is 0 or below, the second 0 or above, and not both are 0',
  })
  .meta({
    allOf: [
      { items: [{ maximum: 0 }, { minimum: 0 }] },
      { not: { items: [{ const: 0 }, { const: 0 }], minItems: 2 } },
    ],
  });

export const limitsEachWay = z
  .union([positive, limits], { error: 'expected a number above 0, or two limits such as [-2, 4]' })
  .describe('One number for both ways, or [low, high] where the two differ. In the file’s unit.');

/** What only zod can check: the `params.rule` of its issue, and the rule in words. */
export const rulesBeyondJsonSchema: Record<string, string> = {
  ascending: 'of two numbers that make a band, the lower comes first',
  repeatability: 'the repeatability is at most the uncertainty',
};
