import type { RulePageAnswer } from '@framewright/schemas/wire';
import { rulePage } from '../../commands/explain';
import type { Feature } from './feature';

/** `framewright/rulePage` { rule } → { markdown }, null where there is no such rule. */
export const rulePages: Feature = {
  capabilities: {},
  register: ({ connection }) => {
    connection.onRequest(
      'framewright/rulePage',
      ({ rule }: { rule: string }): RulePageAnswer => ({
        markdown: rulePage(rule),
      }),
    );
  },
};
