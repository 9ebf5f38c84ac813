import type { Rule } from './rule';

/** Every rule, in the order of the pages. A new rule is a new file and one line here. */
export const rules: readonly Rule[] = [];

const byName = new Map(rules.map((rule) => [rule.name, rule]));

export const ruleNamed = (name: string): Rule | undefined => byName.get(name);
