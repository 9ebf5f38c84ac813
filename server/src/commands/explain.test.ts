import { rulesSchema } from '@framewright/schemas';
import { describe, expect, it } from 'vitest';
import { rules } from '../findings/rule-list';
import { allRules, familyLines, rulePage, unknownRule } from './explain';

describe.each(rules.map((rule) => [rule.name, rule] as const))(
  'the page of %s',
  (name, { page, unchangeable, severity, since, aboutSignature }) => {
    const text = rulePage(name) ?? '';

    it('says what it means, why it matters, how it looks, how to mend it and where it is from', () => {
      const headings = text
        .split('\n')
        .filter((line) => /^#+ /.test(line) && !/^# .*(framewright|:)/.test(line));
      expect(headings).toEqual(
        expect.arrayContaining([
          `# ${name}`,
          '## What it means and why it matters',
          '## Example',
          '## How to mend it',
          '## Source',
        ]),
      );
      for (const words of [page.summary, page.why, page.mend, page.source, page.example]) {
        expect(words.trim().length).toBeGreaterThan(15);
        expect(text).toContain(words);
      }
      expect(page.summary).not.toContain('\n');
      // the example's fence is its own
      expect(text.match(/^```/gm)).toHaveLength(2);
    });

    it('says how severe it is, and whether it can be silenced', () => {
      expect(text).toContain(`Severity: ${severity}.`);
      expect(text.includes('neither settings nor a comment silences it')).toBe(unchangeable === true);
    });

    it('says since when there is such a rule, and what that means for an older signature', () => {
      expect(text).toContain(`Since version ${since}.`);
      const warnsOnly = since !== '0.1' && aboutSignature !== true;
      expect(text.includes('signed under an older version it only warns')).toBe(warnsOnly);
    });

    it('defers to the maker where work can hurt someone', () => {
      const isAboutWork = /^(procedure|sign-off)\//.test(name);
      expect(text).toMatch(isAboutWork ? /the maker/ : /\w/);
    });
  },
);

it('rules that guard the work or the sign-off cannot be silenced', () => {
  const guards = rules.filter(({ unchangeable }) => unchangeable).map(({ name }) => name);
  expect(guards.filter((name) => name.startsWith('sign-off/'))).toHaveLength(11);
  expect(guards).toEqual(
    expect.arrayContaining([
      'base/ambiguous',
      'procedure/never-straighten',
      'procedure/kinked',
      'procedure/section-band',
      'procedure/section-in-straightened',
      'procedure/heat',
    ]),
  );
  expect(guards).toContain('internal/fault');
  expect(guards).toHaveLength(19);
});

describe('a name that is no rule', () => {
  it('has no page', () => expect(rulePage('base/movd')).toBeNull());
  it('is answered with the nearest', () =>
    expect(unknownRule('base/movd')).toBe('there is no rule base/movd; did you mean base/moved?'));
  it.each([
    ['bas', 'base'],
    ['twist-unobservable', 'chassis/twist-unobservable'],
    ['base/ambigous', 'base/ambiguous'],
  ])('%s is likely %s', (name, meant) =>
    expect(unknownRule(name)).toBe(`there is no rule ${name}; did you mean ${meant}?`),
  );
  it('is left open where two families have it', () =>
    expect(unknownRule('family/outside')).not.toContain('did you mean sign-off'));
  it('or with all of them', () => {
    const words = unknownRule('zzzzzzzzzzzzzzzz');
    for (const { name } of rules) expect(words).toContain(`  ${name}`);
  });
});

describe('the list of rules', () => {
  it('has a line for each, with its level and what it reports', () => {
    const lines = allRules(false);
    expect(lines).toHaveLength(rules.length + 1);
    rules.forEach(({ name, severity, unchangeable, page }, i) => {
      const [, first, gate = '', level, says] = /^(\S+) +(†)? +(\S+) +(.*)$/.exec(lines[i]) ?? [];
      expect([first, gate !== '', level, says]).toEqual([
        name,
        unchangeable === true,
        severity,
        page.summary,
      ]);
    });
  });

  it('is the same as JSON', () => {
    const { framewright, rules: listed } = JSON.parse(allRules(true).join('\n'));
    expect(framewright).toBe('rules/1');
    expect(rulesSchema.parse(JSON.parse(allRules(true).join('\n')))).toEqual({ framewright, rules: listed });
    expect(listed).toEqual(
      rules.map(({ name, severity, unchangeable, since, page }) => ({
        name,
        severity,
        unchangeable: unchangeable === true,
        since,
        summary: page.summary,
      })),
    );
  });

  it('of a family has its rules alone', () => {
    const lines = familyLines('base') ?? [];
    expect(lines.filter((line) => line.startsWith('base/'))).toHaveLength(
      rules.filter(({ name }) => name.startsWith('base/')).length,
    );
    expect(lines.at(-1)).toMatch(/^† guards/);
    expect(familyLines('internal')).toHaveLength(2);
    expect(familyLines('name')?.join()).not.toContain('†');
    expect(familyLines('bas')).toBeNull();
  });
});
