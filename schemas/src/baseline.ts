/** What `framewright check --write-baseline` writes. */
import * as z from 'zod';
import { ruleNamePattern } from './settings';

export const baselineSchema = z
  .strictObject({
    framewright: z.literal('baseline/1'),
    known: z
      .array(
        z.strictObject({
          file: z.string().min(1).describe('Path from the folder of the baseline, with slashes.'),
          rule: z.string().regex(ruleNamePattern),
          severity: z.enum(['error', 'warning']).describe('A warning that became an error is a new finding.'),
          about: z.string().describe('What it is said of: the names on the way to it in the file.'),
          count: z.int().min(1),
        }),
      )
      .describe('Findings that were there when the baseline was written, by file.'),
  })
  .describe('Findings that framewright check counts and does not show.');

export type BaselineFile = z.infer<typeof baselineSchema>;
