/** Both judges of a value, for the tests: zod, and the generated JSON Schema in the hands of ajv. */
import { Ajv } from 'ajv';
import type { ZodError, ZodType } from 'zod';
import {
  adviseSchema,
  chassisSchema,
  inspectSchema,
  readingsSchema,
  rulesBeyondJsonSchema,
  rulesSchema,
  scatterSchema,
  settingsSchema,
} from '../index';
import { jsonSchemaTexts } from '../json-schema';

export const schemas = {
  chassis: chassisSchema,
  readings: readingsSchema,
  settings: settingsSchema,
  inspect: inspectSchema,
  advise: adviseSchema,
  rules: rulesSchema,
  scatter: scatterSchema,
} satisfies Record<string, ZodType>;
export type Format = keyof typeof schemas;

// Strict, so that a misspelt keyword in a schema fails; but rules such as one-of add to shapes that stand beside them.
const ajv = new Ajv({
  strict: true,
  strictTuples: false,
  strictTypes: false,
  strictRequired: false,
  allErrors: true,
});
const texts = jsonSchemaTexts();
const compiled = Object.fromEntries(
  Object.keys(schemas).map((format) => [format, ajv.compile(JSON.parse(texts[`${format}.schema.json`]))]),
);

export const passesJsonSchema = (format: Format, value: unknown): boolean => compiled[format](value);
export const jsonSchemaErrors = (format: Format, value: unknown): string[] => {
  compiled[format](value);
  return (compiled[format].errors ?? []).map((error) => `${error.instancePath} ${error.message}`);
};
export const passesZod = (format: Format, value: unknown): boolean =>
  schemas[format].safeParse(value).success;

type Issue = ZodError['issues'][number];

/** Whether zod refuses only for a rule that JSON Schema has no words for. */
export function refusedBeyondJsonSchemaOnly(format: Format, value: unknown): boolean {
  const beyond = (issue: Issue): boolean => {
    if (issue.code === 'custom') return String(issue.params?.rule) in rulesBeyondJsonSchema;
    if (issue.code === 'invalid_union')
      return issue.errors.some((branch) => branch.length > 0 && branch.every(beyond));
    return false;
  };
  const result = schemas[format].safeParse(value);
  return !result.success && result.error.issues.every(beyond);
}

/** A copy of a value with one place in it set, or removed where the new value is undefined. */
export function changed<T>(value: T, path: readonly (string | number)[], replacement: unknown): T {
  const copy = structuredClone(value);
  // biome-ignore lint/suspicious/noExplicitAny: walks any JSON
  let parent: any = copy;
  for (const key of path.slice(0, -1)) {
    parent = parent[key];
    if (parent === undefined) throw new Error(`the example has no ${path.join('.')}`);
  }
  const last = path[path.length - 1];
  if (replacement !== undefined) parent[last] = replacement;
  else if (Array.isArray(parent)) parent.splice(Number(last), 1);
  else if (last in parent) delete parent[last];
  else throw new Error(`the example has no ${path.join('.')}`);
  return copy;
}
