import fc from 'fast-check';
import { expect, test } from 'vitest';
import { linesOf } from '../../text/lines';
import { ignoresIn, mayHoldIgnores } from './ignore-comments';

test('where there may be no comment that silences, there is none', () => {
  const piece = fc.constantFrom(
    '#',
    '# ',
    '##',
    'framewright-ignore',
    ' a/b: why',
    '\n',
    '\r\n',
    'x: 1',
    '\u00a0',
  );
  const counts = { none: 0, some: 0 };
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 12 }), fc.boolean(), (pieces, isAfterMany) => {
      const text = (isAfterMany ? '# seen\n'.repeat(150) : '') + pieces.join('');
      const found = ignoresIn(text, linesOf(text));
      if (found.length > 0) expect(mayHoldIgnores(text)).toBe(true);
      counts[found.length > 0 ? 'some' : 'none']++;
    }),
    { numRuns: 2000 },
  );
  expect(Math.min(counts.none, counts.some)).toBeGreaterThan(50);
});

test('a text that speaks of it outside of a comment holds none', () => {
  expect(mayHoldIgnores('a: framewright-ignore # of old\n')).toBe(false);
  expect(mayHoldIgnores('a: 1 #\tframewright-ignore x/y: why\n')).toBe(true);
});
