import { expect, test } from 'vitest';
import type { Finding } from '../findings/rule/finding';
import { linesOf } from '../text/lines';
import { diagnosticOf } from './convert';

const finding: Finding = {
  rule: 'reading/outside',
  severity: 'error',
  message: 'off',
  range: { start: 6, end: 8 },
  related: [],
  ignored: null,
  replacements: [],
};
const told = (text: string, rulePages: string | null = null) =>
  diagnosticOf(finding, linesOf(text), () => null, rulePages);

test('a finding that stays in its place is told by the same object', () => {
  expect(told('ab\ncd\nefgh\n')).toBe(told('ab\ncd\nefgh\nmore\n'));
});

test('a finding at the same offsets is told anew where lines before it or in it came or went', () => {
  const place = (text: string) => {
    const { start, end } = told(text).range;
    return [start.line, start.character, end.line, end.character];
  };
  const texts = ['ab\ncd\nefgh\n', 'ab cd\nefgh\n', 'ab\ncd\ne\ngh\n', 'abcdefgh', 'ab\ncd\nefgh\n', 'ab'];
  expect(texts.map(place)).toEqual([
    [2, 0, 2, 2],
    [1, 0, 1, 2],
    [2, 0, 3, 0],
    [0, 6, 0, 8],
    [2, 0, 2, 2],
    [0, 2, 0, 2],
  ]);
});

test('where rules’ pages are shown from is part of what is told', () => {
  const text = 'ab\ncd\nefgh\n';
  expect(told(text).codeDescription).toBeUndefined();
  expect(told(text, 'file:///rules/').codeDescription).toEqual({ href: 'file:///rules/reading/outside.md' });
  expect(told(text).codeDescription).toBeUndefined();
});
