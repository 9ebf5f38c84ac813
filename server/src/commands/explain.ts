import { judgingVersions, type RulesJson } from '@framewright/schemas';
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
  const meant = nearest(name, [...families, ...rules.map((rule) => rule.name)]) ?? withLastName(name);
  return `there is no rule ${name}${meant ? `; did you mean ${meant}?` : `; the rules are:\n${rules.map((rule) => `  ${rule.name}`).join('\n')}`}`;
}

/** `moved`: a rule without its family, where there is only one. */
function withLastName(name: string): string | undefined {
  const like = rules.filter((rule) => rule.name.split('/')[1] === name.split('/').at(-1));
  return like.length === 1 ? like[0].name : undefined;
}

const familyOf = ({ name }: Rule): string => name.split('/')[0];

const families: readonly string[] = [...new Set(rules.map(familyOf))];

const mark = '†';

/** A line a rule: name, level, what it reports; what guards the work or the sign-off is marked. */
function ruleLines(listed: readonly Rule[]): string[] {
  const width = Math.max(...listed.map(({ name }) => name.length));
  return [
    ...listed.map(
      ({ name, severity, unchangeable, page }) =>
        `${name.padEnd(width)} ${unchangeable ? mark : ' '} ${severity.padEnd(11)}  ${page.summary}`,
    ),
    ...(listed.some(({ unchangeable }) => unchangeable)
      ? [`${mark} guards the work or the sign-off: neither settings nor a comment silences it`]
      : []),
  ];
}

/** All rules of a family; null where there is none of that name. */
export const familyLines = (family: string): string[] | null =>
  families.includes(family) ? ruleLines(rules.filter((rule) => familyOf(rule) === family)) : null;

/** All rules; as JSON for programs, `rules/1`. */
export const allRules = (asJson: boolean): string[] =>
  asJson
    ? [
        JSON.stringify(
          {
            framewright: 'rules/1',
            rules: rules.map(({ name, severity, unchangeable = false, since, page }) => ({
              name,
              severity,
              unchangeable,
              since,
              summary: page.summary,
            })),
          } satisfies RulesJson,
          null,
          2,
        ),
      ]
    : ruleLines(rules);
