import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { wholeExample } from './testing/page';
import {
  changed,
  type Format,
  passesJsonSchema,
  passesZod,
  refusedBeyondJsonSchemaOnly,
} from './testing/validators';

type Path = (string | number)[];

/** Every place in a value below its top, in text order. */
function placesIn(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [];
  const keys: (string | number)[] = Array.isArray(value) ? [...value.keys()] : Object.keys(value);
  return keys.flatMap((key) => {
    const inner = [...path, key];
    return [inner, ...placesIn((value as Record<string | number, unknown>)[key], inner)];
  });
}

const valueAt = (value: unknown, path: Path): unknown =>
  path.reduce((inner, key) => (inner as Record<string | number, unknown>)[key], value);

const words = [
  'auto',
  'never',
  'all',
  'unreachable',
  'as-before',
  'outboard',
  'left',
  'up',
  '18 kN',
  '90 s',
  '2026-03-05',
  'latch',
  '',
];
const anyNumber = fc.oneof(
  fc.constantFrom(0, -0, 1, -1, 0.5, 1e300),
  fc.integer({ min: -5, max: 5 }),
  fc.double(),
);
const anything = fc.oneof(
  { weight: 4, arbitrary: anyNumber },
  { weight: 4, arbitrary: fc.constantFrom(...words) },
  { weight: 1, arbitrary: fc.constantFrom(null, true, false) },
  { weight: 4, arbitrary: fc.array(anyNumber, { maxLength: 4 }) },
  { weight: 1, arbitrary: fc.array(fc.constantFrom(...words), { maxLength: 3 }) },
  {
    weight: 2,
    arbitrary: fc.record(
      { width: anyNumber, between: fc.array(anyNumber), to: fc.constant('200 C') },
      { requiredKeys: [] },
    ),
  },
);
const keys = [
  'note',
  'at',
  'both',
  'left',
  'centre',
  'hook',
  'direction',
  'force',
  'tolerance',
  'uncertainty',
  'extends',
  'heat',
  'x',
];

type Change =
  | { kind: 'remove'; where: number }
  | { kind: 'set'; where: number; value: unknown }
  | { kind: 'add'; where: number; key: string; value: unknown }
  | { kind: 'copy'; where: number; from: number };

const change: fc.Arbitrary<Change> = fc.oneof(
  fc.record({ kind: fc.constant('remove' as const), where: fc.nat() }),
  fc.record({ kind: fc.constant('set' as const), where: fc.nat(), value: anything }),
  fc.record({
    kind: fc.constant('add' as const),
    where: fc.nat(),
    key: fc.constantFrom(...keys),
    value: anything,
  }),
  fc.record({ kind: fc.constant('copy' as const), where: fc.nat(), from: fc.nat() }),
);

function afterChange(value: unknown, step: Change): unknown {
  const places = placesIn(value);
  if (places.length === 0) return value;
  const path = places[step.where % places.length];
  if (step.kind === 'remove') return changed(value, path, undefined);
  if (step.kind === 'set') return changed(value, path, step.value);
  if (step.kind === 'copy') return changed(value, path, valueAt(value, places[step.from % places.length]));
  const parent = valueAt(value, path);
  if (typeof parent !== 'object' || parent === null || Array.isArray(parent)) return value;
  return changed(value, [...path, step.key], step.value);
}

describe.each<Format>(['chassis', 'readings', 'settings'])(
  'zod and the generated JSON Schema on a %s file',
  (format) => {
    it('accept and refuse the same values, but for the rules that JSON Schema cannot say', () => {
      const seen = { accepted: 0, refused: 0 };
      fc.assert(
        fc.property(fc.array(change, { minLength: 1, maxLength: 3 }), (steps) => {
          const value = steps.reduce(afterChange, wholeExample(format));
          const byZod = passesZod(format, value);
          const byJsonSchema = passesJsonSchema(format, value);
          seen[byZod ? 'accepted' : 'refused']++;
          if (byZod !== byJsonSchema)
            expect(byJsonSchema && refusedBeyondJsonSchemaOnly(format, value)).toBe(true);
        }),
        { numRuns: 600 },
      );
      // the variants are worth something only where both kinds come up
      expect(Math.min(seen.accepted, seen.refused)).toBeGreaterThan(30);
    }, 60_000);
  },
);
