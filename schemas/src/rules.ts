/** What `framewright rules --format json` prints: the contract of other tools, hence versioned. */
import * as z from 'zod';
import { ruleNamePattern } from './settings';
import { judgingVersions } from './versions';

export const rulesSchema = z
  .strictObject({
    framewright: z.literal('rules/1'),
    rules: z.array(
      z.strictObject({
        name: z.string().regex(ruleNamePattern).describe('`family/name`.'),
        severity: z.enum(['error', 'warning', 'information']).describe('Unless settings say otherwise.'),
        unchangeable: z
          .boolean()
          .describe('It guards the work or the sign-off: neither settings nor a comment silences it.'),
        since: z.enum(judgingVersions).describe('The first version that has it.'),
        summary: z.string().min(1).describe('One line: what it reports.'),
      }),
    ),
  })
  .describe('All rules of the program.');

export type RulesJson = z.infer<typeof rulesSchema>;
