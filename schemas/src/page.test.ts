import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import type { ZodType } from 'zod';
import {
  chassisKeys,
  instrumentSchema,
  partSchema,
  pointSchema,
  readingsKeys,
  settingsKeys,
  sourceSchema,
  spanSchema,
  timelineEntrySchema,
  timelineSchemas,
} from './index';
import { examplesOnPage, wholeExample } from './testing/page';
import { type Format, jsonSchemaErrors, passesZod, schemas } from './testing/validators';

const keysOf: Record<string, Record<string, ZodType>> = {
  chassis: chassisKeys,
  readings: readingsKeys,
  settings: settingsKeys,
};
const wholeFormats = ['chassis', 'readings', 'settings'] as const;
const examples = examplesOnPage();
const page = readFileSync(new URL('../README.md', import.meta.url), 'utf8');

describe('the language page', () => {
  it('shows each format whole and marks every example with its format', () => {
    expect(examples.length).toBeGreaterThan(20);
    expect(
      examples.filter(({ format }) => !['chassis', 'readings', 'timeline', 'settings'].includes(format)),
    ).toEqual([]);
    for (const format of wholeFormats) expect(wholeExample(format).framewright).toBe(`${format}/1`);
  });

  it.each(examples)('has a valid $format example on line $line', ({ format, text }) => {
    const value = parse(text);
    if (format === 'timeline') {
      expect(value.length).toBeGreaterThan(0);
      for (const entry of value) expect(timelineEntrySchema.safeParse(entry).error).toBeUndefined();
    } else if (text.startsWith('framewright:')) {
      expect(schemas[format as Format].safeParse(value).error).toBeUndefined();
      expect(jsonSchemaErrors(format as Format, value)).toEqual([]);
    } else {
      expect(Object.keys(value).length).toBeGreaterThan(0);
      for (const [key, part] of Object.entries(value)) {
        const schema = keysOf[format][key];
        expect(schema, key).toBeDefined();
        expect(schema.safeParse(part).error, key).toBeUndefined();
      }
    }
  });

  it.each(wholeFormats)('explains every top-level key of a %s file', (format) => {
    const unexplained = Object.keys(keysOf[format]).filter((key) => !page.includes(`| \`${key}\` |`));
    expect(unexplained).toEqual([]);
  });

  it.each(
    Object.entries({
      ...timelineSchemas,
      partSchema,
      pointSchema,
      spanSchema,
      sourceSchema,
      instrumentSchema,
    }),
  )('names every key of %s', (_, schema) => {
    const unnamed = Object.keys(schema.shape).filter((key) => !new RegExp(`\`${key}:?[\`,. ]`).test(page));
    expect(unnamed).toEqual([]);
  });

  it('shows files that both judges refuse when they say another version', () => {
    for (const format of wholeFormats) {
      const value = { ...wholeExample(format), framewright: `${format}/2` };
      expect(passesZod(format, value)).toBe(false);
      expect(jsonSchemaErrors(format, value)).not.toEqual([]);
    }
  });
});
