/** `.framewright.yaml`: a repository's rule severities, decision rule, usual instrument, ignored folders and table layouts. */
import * as z from 'zod';
import { judgingVersion } from './common';
import { tablesSchema } from './tables';

export const severityWords = ['error', 'warning', 'information', 'off'] as const;
export const decisionRules = ['simple', 'guarded'] as const;
export const ruleNamePattern = /^[a-z]+(-[a-z]+)*\/[a-z]+(-[a-z]+)*$/;

export const settingsSchema = z
  .strictObject({
    framewright: z
      .literal('settings/1')
      .describe('The kind of file and its version: settings/1. The first line.'),
    rules: z
      .record(
        z.string().regex(ruleNamePattern, { error: 'expected a rule’s name such as reading/coverage' }),
        z.enum(severityWords),
      )
      .optional()
      .describe(
        'How severe a rule’s findings are, by the rule’s name: error, warning, information or off. The rules that guard ' +
          'procedure and sign-off cannot be changed.',
      ),
    'decision-rule': z
      .enum(decisionRules)
      .optional()
      .meta({ default: 'simple' })
      .describe(
        'The rule for a closed job: simple (default; a deviation inside its limit passes) or guarded (only what is ' +
          'certainly within passes).',
      ),
    'advise-uncertainty': z
      .number()
      .gt(0)
      .max(100)
      .optional()
      .meta({ default: 0.5 })
      .describe(
        'The standard uncertainty in mm of the instrument by which a chassis file is asked which parts can be decided ' +
          '(default 0.5).',
      ),
    'calibration-months': z
      .number()
      .int()
      .gt(0)
      .max(600)
      .optional()
      .describe(
        'For how many months the calibration of an instrument holds. Absent: how old it may be is not looked at.',
      ),
    'signed-since': judgingVersion
      .optional()
      .describe(
        'The oldest version of the program whose sign-offs are accepted, such as 0.2: an older signature is then an error. ' +
          'Absent: all are.',
      ),
    ignore: z
      .array(z.string().min(1))
      .optional()
      .describe(
        'Folders and files that are not looked for, by their path from this file’s folder, or by patterns as in .gitignore, whichever ' +
          'folder is checked.',
      ),
    tables: tablesSchema.optional(),
  })
  .meta({
    title: 'Framewright settings',
    description: 'Rule severities, decision rule, ignored folders and table layouts of a repository.',
  });

export const settingsKeys = settingsSchema.shape;
export const settingsRequired = ['framewright'] as const;

export type SettingsFile = z.infer<typeof settingsSchema>;
