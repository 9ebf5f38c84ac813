import { describe, expect, it } from 'vitest';
import type { ReadingRule } from '../model/problem';
import { isUnread, raiserOf, rules } from './rule-list';

/** Raised below this room; the type holds the list complete. */
const readingRules: Record<ReadingRule, true> = {
  'text/syntax': true,
  'text/unknown-key': true,
  'text/wrong-type': true,
  'text/missing-key': true,
  'text/duplicate-key': true,
  'text/too-large': true,
  'name/unknown-point': true,
  'name/unknown-part': true,
  'name/needs-side': true,
  'name/file-not-found': true,
  'name/extends-cycle': true,
  'settings/ignore-matches-nothing': true,
};

describe('the rules', () => {
  it('have each its own name and check, or say who raises them', () => {
    expect(new Set(rules.map(({ name }) => name)).size).toBe(rules.length);
    for (const { name, ofJob, ofChassis, raisedBy } of rules)
      expect([name, raisedBy === undefined]).toEqual([name, ofJob !== undefined || ofChassis !== undefined]);
  });

  it('have a page for all that reading a file can find', () => {
    const raisers = ['text', 'names', 'settings'];
    const raised = rules.filter(({ raisedBy = '' }) => raisers.includes(raisedBy)).map(({ name }) => name);
    expect(raised.sort()).toEqual(Object.keys(readingRules).sort());
  });

  it('that guard a closed job do not make an open one fail', () =>
    expect(rules.filter(({ inGate, failsCheck }) => inGate && failsCheck === 'always')).toEqual([]));

  it('say what cannot be read or names what is not there', () => {
    expect(
      ['text/syntax', 'name/needs-side', 'name/unused-part', 'chassis/units', 'none'].map(isUnread),
    ).toEqual([true, true, false, false, false]);
    expect(raiserOf('settings/unused-ignore')).toBe('ignores');
  });
});
