import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { chassisKeys, inspectSchema, readingsKeys, settingsKeys, timelineSchemas } from './index';
import { jsonSchemaTexts } from './json-schema';

const folder = new URL('../json/', import.meta.url);

describe('the committed JSON Schemas', () => {
  const texts = jsonSchemaTexts();

  it.each(Object.keys(texts))('%s is current; `npm run build -w schemas` writes it anew', (name) => {
    expect(readFileSync(new URL(name, folder), 'utf8')).toBe(texts[name]);
  });

  it('are all that the folder holds', () => {
    expect(readdirSync(folder).sort()).toEqual(Object.keys(texts).sort());
  });

  it('come out the same each time', () => {
    expect(jsonSchemaTexts()).toEqual(texts);
  });

  it('name their version and no host', () => {
    for (const [name, text] of Object.entries(texts)) {
      expect(JSON.parse(text).$id).toBe(`framewright:${name.split('.')[0]}/1`);
    }
  });
});

describe('every key of a file', () => {
  const groups = {
    chassis: chassisKeys,
    readings: readingsKeys,
    settings: settingsKeys,
    ...Object.fromEntries(Object.entries(timelineSchemas).map(([kind, schema]) => [kind, schema.shape])),
  };

  it.each(Object.entries(groups))('of %s has a description for hover and completion', (_, shape) => {
    const keys = Object.keys(shape);
    expect(keys.length).toBeGreaterThan(0);
    for (const key of keys) {
      expect(descriptionOf(shape[key as keyof typeof shape]), key).toMatch(/^[^\s].{15,}\.$/);
    }
  });

  it('of the JSON Schemas, at every depth, has one', () => {
    for (const name of ['chassis', 'readings', 'settings']) {
      const bare = propertiesWithoutDescription(JSON.parse(jsonSchemaTexts()[`${name}.schema.json`]), name);
      expect(bare).toEqual([]);
    }
    expect(inspectSchema.meta()?.title).toBeDefined();
  });
});

const descriptionOf = (schema: { description?: string; unwrap?: () => unknown }): string =>
  schema.description ?? (schema.unwrap ? descriptionOf(schema.unwrap() as { description?: string }) : '');

function propertiesWithoutDescription(schema: unknown, path: string): string[] {
  if (typeof schema !== 'object' || schema === null) return [];
  return Object.entries(schema).flatMap(([key, value]) => [
    ...(key === 'properties'
      ? Object.entries(value as Record<string, { description?: string }>)
          .filter(([, property]) => property.description === undefined)
          .map(([name]) => `${path}.${name}`)
      : []),
    ...propertiesWithoutDescription(value, `${path}.${key}`),
  ]);
}
