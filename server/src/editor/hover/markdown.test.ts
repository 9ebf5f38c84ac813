import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { escaped, table } from './markdown';

it('escaped text reads back as it was, on one line, and holds no markup of its own', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), (text) => {
      const safe = escaped(text);
      expect(safe).not.toMatch(/[\r\n]/);
      // CommonMark 0.31, section 2.4: a backslash before ASCII punctuation is that character and nothing else
      expect(safe.replace(/\\([!-/:-@[-`{-~])/g, '$1')).toBe(text.replace(/[\r\n\u2028\u2029]+/g, ' '));
      expect(safe.replace(/\\[!-/:-@[-`{-~]/g, '')).not.toMatch(/[\\`*_{}[\]<>()#+!|~&:@]/);
    }),
  );
});

it('a table has words left and figures right', () => {
  const [head, rule, row] = table(['', 'off by', 'limit'], [['length', '9.1 rearward', '±3.0']]).split('\n');
  expect(head.split('|')).toHaveLength(5);
  expect(rule).toBe('|:--|--:|--:|');
  expect(row).toContain('| length&nbsp;&nbsp; | 9.1 rearward&nbsp;&nbsp; | ±3.0&nbsp;&nbsp; |');
});
