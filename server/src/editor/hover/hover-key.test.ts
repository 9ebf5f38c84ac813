import {
  chassisSchema,
  readingsSchema,
  settingsSchema,
  timelineKinds,
  timelineSchemas,
} from '@framewright/schemas';
import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { descriptionsAt, keysOf } from '../../model/read/schema-shape';
import { before, shownAt } from '../testing/asked';

describe('every key at the top of a file and of an entry is described', () => {
  const shapes: [string, z.ZodType][] = [
    ['chassis', chassisSchema],
    ['readings', readingsSchema],
    ['settings', settingsSchema],
    ...timelineKinds.map((kind): [string, z.ZodType] => [kind, timelineSchemas[kind]]),
  ];
  it.each(shapes)('%s', (_, schema) => {
    const keys = keysOf(schema, []);
    expect(keys.length).toBeGreaterThan(0);
    expect(keys.filter((key) => descriptionsAt(schema, [key]).length === 0)).toEqual([]);
  });
});

describe('a key means what it means where it stands', () => {
  const text = `framewright: readings/1
timeline:
  - measure: a
    at: 2026-03-02T09:10
  - section: front-rail.L
    at: 2500
  - heat: apron.R
    to: 180 C
`;
  const shown = async (piece: string, nth = 0) =>
    (await shownAt({ 'w.readings.yaml': before(text, piece, nth) }, 'w.readings.yaml'))?.markdown ?? '';

  it('the time of a measure is not the place of a cut', async () => {
    const [time, place] = [await shown('at: 2026'), await shown('at: 2500')];
    expect(time).toMatch(/^\*\*at\*\*\n\n\w/);
    expect(place).toMatch(/^\*\*at\*\*\n\n\w/);
    expect(time).not.toBe(place);
  });

  it('the kind of an entry is told', async () => {
    expect(await shown('heat')).toMatch(/^\*\*heat\*\*\n\n\w/);
    expect(await shown('to: 180')).toMatch(/^\*\*to\*\*\n\n\w/);
  });

  it('a key that is none is not', async () => {
    const odd = before(text.replace('to: 180 C', 'tu: 180 C'), 'tu:');
    expect(await shownAt({ 'w.readings.yaml': odd }, 'w.readings.yaml')).toBeNull();
  });
});
