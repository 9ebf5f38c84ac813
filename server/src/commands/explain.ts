import { judgingVersions } from '@framewright/schemas';
import type { Rule } from '../findings/rule/rule';
import { ruleNamed, rules } from '../findings/rule-list';
import { nearest } from '../model/names';
import { isOlder } from '../model/resolve/judging';

/** A rule's page as Markdown; null where there is no such rule. */
export function rulePage(name: string): string | null {
  const rule = ruleNamed(name);
  return rule === undefined ? null : pageOf(rule);
}

function pageOf({ name, severity, since, aboutSignature, unchangeable, page }: Rule): string {
  const fixed = unchangeable
    ? ' It guards the work or the sign-off: neither settings nor a comment silences it.'
    : '';
  const newer =
    isOlder(judgingVersions[0], since) && !aboutSignature
      ? ' In a job that was signed under an older version it only warns.'
      : '';
  return [
    `# ${name}`,
    '',
    page.summary,
    '',
    `Severity: ${severity}. Since version ${since}.${newer}${fixed}`,
    '',
    '## What it means and why it matters',
    '',
    page.why,
    '',
    '## Example',
    '',
    '```yaml',
    page.example,
    '```',
    '',
    '## How to mend it',
    '',
    page.mend,
    '',
    '## Source',
    '',
    page.source,
    '',
  ].join('\n');
}

/** For a name that is none: what was likely meant, else all of them. */
export function unknownRule(name: string): string {
  const meant = nearest(
    name,
    rules.map((rule) => rule.name),
  );
  return `there is no rule ${name}${meant ? `; did you mean ${meant}?` : `; the rules are:\n${rules.map((rule) => `  ${rule.name}`).join('\n')}`}`;
}
