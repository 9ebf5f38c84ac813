/** The JSON Schemas that other editors and other tools use, generated from the zod schemas. */
import type { ZodType } from 'zod';
import * as z from 'zod';
import { adviseSchema } from './advise';
import { baselineSchema } from './baseline';
import { chassisSchema } from './chassis';
import { checkSchema } from './check';
import { diffSchema } from './diff';
import { inspectSchema } from './inspect';
import { readingsSchema } from './readings';
import { rulesSchema } from './rules';
import { scatterSchema } from './scatter';
import { settingsSchema } from './settings';

/** The `$id` of each names the format and its version, with no host: nothing is to be fetched. */
const formats: Record<string, { id: string; schema: ZodType }> = {
  chassis: { id: 'framewright:chassis/1', schema: chassisSchema },
  readings: { id: 'framewright:readings/1', schema: readingsSchema },
  settings: { id: 'framewright:settings/1', schema: settingsSchema },
  inspect: { id: 'framewright:inspect/1', schema: inspectSchema },
  baseline: { id: 'framewright:baseline/1', schema: baselineSchema },
  check: { id: 'framewright:check/1', schema: checkSchema },
  advise: { id: 'framewright:advise/1', schema: adviseSchema },
  diff: { id: 'framewright:diff/1', schema: diffSchema },
  rules: { id: 'framewright:rules/1', schema: rulesSchema },
  scatter: { id: 'framewright:scatter/1', schema: scatterSchema },
};

/**
 * The text of each file under `schemas/json/`, by file name. Same zod schemas, same text.
 *
 * Draft 7, because editors' YAML tools rest on a JSON language service whose full support ends there: of the newer
 * drafts they know some keywords only, and `prefixItems`, which every position of ours would need, is a late one.
 */
export function jsonSchemaTexts(): Record<string, string> {
  const texts: Record<string, string> = {};
  for (const [name, { id, schema }] of Object.entries(formats)) {
    // `input`: what a file may say, before a bare number is kept as text.
    const { $schema, ...rest } = z.toJSONSchema(schema, { target: 'draft-07', io: 'input' });
    texts[`${name}.schema.json`] = `${JSON.stringify({ $schema, $id: id, ...rest }, null, 2)}\n`;
  }
  return texts;
}
