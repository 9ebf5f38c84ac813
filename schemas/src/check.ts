/** What `framewright check --format json` prints. */
import * as z from 'zod';
import { ruleNamePattern } from './settings';

const count = z.int().min(0);
const fromOne = z.int().min(1);

const findingSchema = z.strictObject({
  rule: z.string().regex(ruleNamePattern).describe('`framewright explain RULE` prints its page.'),
  severity: z.enum(['error', 'warning', 'information']),
  message: z.string(),
  ignored: z.string().nullable().describe('The reason where a comment in the file silences it, else null.'),
  line: fromOne.describe('Counted from 1.'),
  column: fromOne.describe('Counted from 1, in UTF-16 units.'),
  endColumn: fromOne.describe('The first column after the finding, or after its line.'),
  part: z
    .string()
    .nullable()
    .describe('The part of the body that the reading belongs to at which it stands.'),
});

export const checkSchema = z
  .strictObject({
    framewright: z.literal('check/1'),
    files: z
      .array(z.strictObject({ path: z.string(), findings: z.array(findingSchema) }))
      .describe('Every file that was looked at, in order, those without findings too.'),
    unread: z
      .array(z.string())
      .describe(
        'What could not be read or looked for, a line each; where there is one, the answer is not a whole one.',
      ),
    looked: count.describe('Number of files that were looked at.'),
    counts: z
      .strictObject({ error: count, warning: count, information: count })
      .describe('Findings that no comment silences.'),
    ignored: count.describe('Findings that a comment silences, with a reason.'),
    known: count.describe('Findings of the baseline, which are counted only.'),
    hidden: count.describe('Findings for information that are counted only; `--verbose` lists them.'),
    leftOut: count.describe(
      'Files that `ignore` in settings or a `.gitignore` leaves out: nobody looked at them.',
    ),
  })
  .describe('What framewright check found: lines and columns count from 1.');

export type CheckAnswer = z.infer<typeof checkSchema>;
