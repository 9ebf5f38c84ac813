import type { z } from 'zod';
import { derived } from '../../memory/derived';

/** What a zod schema is made of, as far as the program asks: which keys may stand at a path, and which plain types. */

interface Definition {
  type: string;
  shape?: Record<string, z.ZodType>;
  innerType?: z.ZodType;
  in?: z.ZodType;
  element?: z.ZodType;
  items?: z.ZodType[];
  valueType?: z.ZodType;
  options?: z.ZodType[];
  values?: unknown[];
  entries?: Record<string, unknown>;
}

const definitionOf = (schema: z.ZodType): Definition => schema.def;

/** The keys that a map at a path may have; empty where any may stand. */
export function keysOf(schema: z.ZodType, path: readonly (string | number)[]): string[] {
  const keys = new Set<string>();
  for (const at of schemasAt([schema], path))
    for (const key of Object.keys(definitionOf(at).shape ?? {})) keys.add(key);
  return [...keys];
}

/** Every schema that a value at a path may be held to. */
export function schemasAt(
  schemas: readonly z.ZodType[],
  path: readonly (string | number)[],
): readonly z.ZodType[] {
  let at: readonly z.ZodType[] = schemas.length === 1 ? unwrapped(schemas[0]) : schemas.flatMap(unwrapped);
  for (const step of path) at = schemasBelow(at, step);
  return at;
}

const none: readonly z.ZodType[] = [];

/** One step down from schemas without wrapping. */
export const schemasBelow = (schemas: readonly z.ZodType[], step: string | number): readonly z.ZodType[] => {
  // of one, which nearly all are, no new list is made
  if (schemas.length === 1) return belowOne(schemas[0], step);
  return schemas.length === 0 ? none : schemas.flatMap((schema) => belowOne(schema, step));
};

function belowOne(schema: z.ZodType, step: string | number): readonly z.ZodType[] {
  const { type, shape, element, items, valueType } = definitionOf(schema);
  let inner: z.ZodType | undefined;
  if (type === 'object') inner = shape && Object.hasOwn(shape, step) ? shape[step] : undefined;
  // a word names no place in a list: beside a list, a map may stand with keys of its own
  else if (type === 'array') inner = typeof step === 'number' ? element : undefined;
  else if (type === 'tuple') inner = items?.[Number(step)];
  else if (type === 'record') inner = valueType;
  return inner ? unwrapped(inner) : none;
}

/** Whether one of the schemas, without wrapping, takes values of a type: `number`, `string`, `boolean`. */
export const takes = (schemas: readonly z.ZodType[], type: string): boolean =>
  schemas.some((schema) => definitionOf(schema).type === type);

/** The words that may stand where these schemas hold: of literals and enumerations. */
export const wordsOf = (schemas: readonly z.ZodType[]): string[] =>
  schemas.flatMap((schema) => {
    const { values, entries } = definitionOf(schema);
    return [...(values ?? []), ...Object.values(entries ?? {})].map(String);
  });

/** What stands inside optional, default, refinement and union. */
const unwrapped: (schema: z.ZodType) => readonly z.ZodType[] = derived((schema) => {
  const { innerType, in: input, options } = definitionOf(schema);
  const inner = innerType ? [innerType] : input ? [input] : options;
  return inner ? inner.flatMap(unwrapped) : [schema];
});

/** The descriptions of what may stand at a path, in plain words; the nearest to the value first. */
export function descriptionsAt(schema: z.ZodType, path: readonly (string | number)[]): string[] {
  const parents = path.length === 0 ? [] : schemasAt([schema], path.slice(0, -1));
  const step = path[path.length - 1];
  const direct = parents.flatMap((parent) => {
    const { shape } = definitionOf(parent);
    return shape && Object.hasOwn(shape, step) ? shape[step] : [];
  });
  return [...direct, ...schemasAt([schema], path)].flatMap(described);
}

/** A description stays with what it was given to, inside the wrapping of optional, default and refinement. */
function described(schema: z.ZodType): string[] {
  const { innerType, in: input } = definitionOf(schema);
  const inner = innerType ?? input;
  return [...(schema.description ? [schema.description] : []), ...(inner ? described(inner) : [])];
}
