import { describe, expect, it } from 'vitest';
import { type Judges, ownJudges } from '../../workspace/judges';
import { memoryFiles } from '../../workspace/testing/memory-files';
import { Workspace } from '../../workspace/workspace';
import type { Rule } from '../rule/rule';

const uri = 'file:///shop/teal.chassis.yaml';
const text =
  'framewright: chassis/1\nvehicle: Teal\npoints:\n  latch: { centre: [2700, 0, 780] }\n  hook: { centre: [2600, 0, 700] }\n';

const withRules = (failing: (rule: Rule) => unknown): Judges => ({
  ...ownJudges,
  rules: ownJudges.rules.map((rule) => {
    const error = rule.ofChassis && failing(rule);
    if (error === undefined) return rule;
    return {
      ...rule,
      ofChassis: () => {
        throw error;
      },
    };
  }),
});

async function found(judges: Judges) {
  const workspace = new Workspace(memoryFiles({ [uri]: text }), judges);
  const logged: unknown[] = [];
  workspace.failed = (_, error) => logged.push(error);
  const analysis = await workspace.analysis(uri);
  if (!('findings' in analysis)) throw new Error(analysis.message);
  return {
    logged,
    faults: analysis.findings.filter(({ rule }) => rule === 'internal/fault'),
    others: analysis.findings.filter(({ rule }) => rule !== 'internal/fault'),
  };
}

describe('a rule that throws', () => {
  it('is named on the first line, and what other rules say is the same', async () => {
    const sound = await found(ownJudges);
    expect(sound.others.length).toBeGreaterThan(0);
    expect(sound.faults).toEqual([]);
    const { faults, others, logged } = await found(
      withRules(({ name }) =>
        name === 'chassis/coincident-points' ? new Error('no\nsuch thing') : undefined,
      ),
    );
    expect(others).toEqual(sound.others);
    expect(faults.map(({ message, range }) => [message, text.slice(range.start, range.end)])).toEqual([
      [
        'not judged by chassis/coincident-points: the program failed in that rule (Error: no such thing). This is a fault of the program, not of the file: please report it, with a copy of teal.chassis.yaml',
        'framewright: chassis/1',
      ],
    ]);
    expect(String(logged)).toBe('Error: no\nsuch thing');
  });

  it('for a cause that others have as well is said once with them', async () => {
    const { faults } = await found(withRules(() => new Error('what all build on')));
    expect(faults).toHaveLength(1);
    expect(faults[0].message).toMatch(
      /^not judged by name\/unused-part, .* and \d+ more rules: .*build on \(/,
    );
  });

  it.each([[null], [Object.create(null)], [Symbol('odd')], ['\u001b[2Jwords\u202e']])(
    'may throw anything',
    async (thrown) => {
      const { faults } = await found(
        withRules(({ name }) => (name === 'chassis/coincident-points' ? thrown : undefined)),
      );
      expect(faults).toHaveLength(1);
      expect(faults[0].message).not.toMatch(/[\u0000-\u001f\u202e]/);
    },
  );
});
