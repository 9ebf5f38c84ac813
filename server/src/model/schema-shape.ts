import type { z } from 'zod';

/** What a zod schema is made of, as far as the program asks: the keys that may stand at a path, and their descriptions. */

interface Definition {
  type: string;
  shape?: Record<string, z.ZodType>;
  innerType?: z.ZodType;
  in?: z.ZodType;
  element?: z.ZodType;
  items?: z.ZodType[];
  valueType?: z.ZodType;
  options?: z.ZodType[];
}

const definitionOf = (schema: z.ZodType): Definition => (schema as unknown as { _zod: { def: Definition } })._zod.def;

/** The keys that a map at a path may have; empty where any may stand. */
export function keysOf(schema: z.ZodType, path: readonly (string | number)[]): string[] {
  const keys = new Set<string>();
  for (const at of schemasAt([schema], path)) for (const key of Object.keys(definitionOf(at).shape ?? {})) keys.add(key);
  return [...keys];
}

/** Every schema that a value at a path may be held to. */
export function schemasAt(schemas: readonly z.ZodType[], path: readonly (string | number)[]): z.ZodType[] {
  const flat = schemas.flatMap(unwrapped);
  if (path.length === 0) return flat;
  const [step, ...rest] = path;
  const inner = flat.flatMap((schema) => {
    const { type, shape, element, items, valueType } = definitionOf(schema);
    if (type === 'object') return shape?.[step] ?? [];
    if (type === 'array') return element ?? [];
    if (type === 'tuple') return items?.[Number(step)] ?? [];
    if (type === 'record') return valueType ?? [];
    return [];
  });
  return inner.length === 0 ? [] : schemasAt(inner, rest);
}

function unwrapped(schema: z.ZodType): z.ZodType[] {
  const { innerType, in: input, options } = definitionOf(schema);
  if (innerType) return unwrapped(innerType);
  if (input) return unwrapped(input);
  if (options) return options.flatMap(unwrapped);
  return [schema];
}
