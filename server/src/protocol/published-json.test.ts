import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Diagnostic } from 'vscode-languageserver';
import { PublishedJson } from './published-json';

const place = fc.record({ line: fc.nat(), character: fc.nat() });
const range = fc.record({ start: place, end: place });
const anyText = fc.string({
  unit: fc.constantFrom('a', '"', '\\', '\n', '\0', '\x7f', '±', '”', '\u2028', '\ud800', '\u{1F697}'),
});
const related = fc.record({ location: fc.record({ uri: anyText, range }), message: anyText });
const diagnostic: fc.Arbitrary<Diagnostic> = fc.record(
  {
    range,
    // few, so that the same one comes again with something else about it
    message: fc.oneof(
      fc.constantFrom('5.9 mm too far right; limit ±3.0', 'measured again in “check 2”'),
      anyText,
    ),
    severity: fc.constantFrom(1, 2, 3),
    source: fc.constantFrom('framewright', 'another'),
    code: fc.oneof(fc.constantFrom('reading/outside', 'base/moved'), fc.nat(3)),
    codeDescription: fc.record({ href: fc.constantFrom('file:///é.md', 'file:///b.md') }),
    tags: fc.subarray<1 | 2>([1, 2]),
    relatedInformation: fc.array(related, { maxLength: 2 }),
    data: fc.oneof(fc.constant(null), anyText),
  },
  { requiredKeys: ['range', 'message'] },
);
const document = fc.record(
  {
    uri: fc.constantFrom('file:///w-1.readings.yaml', 'file:///straße “2”.readings.yaml'),
    version: fc.nat(),
  },
  { requiredKeys: ['uri'] },
);
/** Some of a few diagnostics, which come again as the same objects, and new ones. */
const publication = fc.record({
  document,
  again: fc.array(fc.nat(), { maxLength: 6 }),
  fresh: fc.array(diagnostic, { maxLength: 4 }),
});

const messageOf = (params: object) => ({
  jsonrpc: '2.0',
  method: 'textDocument/publishDiagnostics',
  params,
});

test('what is told of documents, one edit after the other, says what JSON says of it, in ASCII', () => {
  fc.assert(
    fc.property(
      fc.array(diagnostic, { minLength: 1, maxLength: 4 }),
      fc.array(publication, { maxLength: 8 }),
      (known, publications) => {
        const published = new PublishedJson();
        for (const { document, again, fresh } of publications) {
          const diagnostics = [...again.map((each) => known[each % known.length]), ...fresh];
          const message = messageOf({ ...document, diagnostics });
          const pieces = published.piecesOf(message);
          if (pieces === null) {
            expect(document.version === undefined || diagnostics.length === 0).toBe(true);
            continue;
          }
          const json = pieces.join('');
          expect(json).toMatch(/^[\x00-\x7e]*$/);
          expect(JSON.parse(json)).toEqual(JSON.parse(JSON.stringify(message)));
        }
      },
    ),
  );
});

test('what moved and came back is written where it stands', () => {
  const published = new PublishedJson();
  const at = (line: number): Diagnostic => ({
    message: 'off',
    range: { start: { line, character: 6 }, end: { line, character: 9 } },
  });
  const [here, moved] = [at(3), at(4)];
  const linesOf = (diagnostics: Diagnostic[]): number[] => {
    const pieces = published.piecesOf(messageOf({ uri: 'file:///w', version: 1, diagnostics }));
    return JSON.parse(pieces!.join('')).params.diagnostics.map((each: Diagnostic) => each.range.start.line);
  };
  const seen = [[here], [here], [here], [moved], [here], [here], [here, moved], [moved, here]].map(linesOf);
  expect(seen).toEqual([[3], [3], [3], [4], [3], [3], [3, 4], [4, 3]]);
});

test('other messages are left to others', () => {
  const published = new PublishedJson();
  expect(published.piecesOf({ jsonrpc: '2.0', id: 1, result: null } as never)).toBeNull();
  expect(published.piecesOf({ jsonrpc: '2.0', method: 'initialized', params: {} } as never)).toBeNull();
});
