import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Finding } from '../findings/rule/finding';
import { linesOf } from '../text/lines';
import { diagnosticOf, rangeOf } from './convert';

test('both ends of a range are where the lines say, on one line or several, within the text or not', () => {
  const text = fc.string({ unit: fc.constantFrom('a', '\n', '\r', '\u{1F697}') });
  fc.assert(
    fc.property(
      text,
      fc.integer({ min: -2, max: 25 }),
      fc.integer({ min: -2, max: 25 }),
      (written, start, end) => {
        const lines = linesOf(written);
        const expected = { start: lines.positionAt(start), end: lines.positionAt(end) };
        expect(rangeOf({ start, end }, lines)).toEqual(expected);
      },
    ),
  );
});

test('a diagnostic says what there is to say, and nothing else', () => {
  const finding: Finding = {
    rule: 'reading/outside',
    severity: 'warning',
    message: '5.9 mm too far right',
    range: { start: 3, end: 5 },
    related: [],
    ignored: null,
    replacements: [],
  };
  const lines = linesOf('a\nbcde\n');
  const range = { start: { line: 1, character: 1 }, end: { line: 1, character: 3 } };
  const plain = {
    range,
    severity: 2,
    source: 'framewright',
    code: 'reading/outside',
    message: '5.9 mm too far right',
  };
  expect(diagnosticOf(finding, lines, () => null, null)).toStrictEqual(plain);
  const place = { message: 'written here', range: { start: 0, end: 1 } };
  const related = [
    { uri: 'file:///b.yaml', ...place },
    { uri: 'file:///gone.yaml', ...place },
  ];
  const linesIn = (uri: string) => (uri === 'file:///b.yaml' ? lines : null);
  const unused = { ...finding, rule: 'name/unused-part', related };
  expect(diagnosticOf(unused, lines, linesIn, 'file:///rules/')).toStrictEqual({
    ...plain,
    code: 'name/unused-part',
    codeDescription: { href: 'file:///rules/name/unused-part.md' },
    tags: [1],
    relatedInformation: [
      {
        location: {
          uri: 'file:///b.yaml',
          range: { start: { line: 0, character: 0 }, end: { line: 0, character: 1 } },
        },
        message: 'written here',
      },
    ],
  });
});
