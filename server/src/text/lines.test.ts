import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { linesOf } from './lines';

describe('the lines of a text', () => {
  it('end at each of the three line breaks', () => {
    const lines = linesOf('a\nb\r\nc\rd');
    expect(lines.lineCount).toBe(4);
    expect([0, 1, 2, 3].map(lines.lineText)).toEqual(['a', 'b', 'c', 'd']);
    expect([0, 1, 2, 3].map(lines.startOf)).toEqual([0, 2, 5, 7]);
  });

  it('are one where the text is empty, and one more after a last line break', () => {
    expect(linesOf('').lineCount).toBe(1);
    expect(linesOf('a\n').lineCount).toBe(2);
  });

  it('count characters in UTF-16 units', () => {
    expect(linesOf('x\n\u{1F697} y').positionAt(5)).toEqual({ line: 1, character: 3 });
  });

  it('clamp what lies outside them', () => {
    const lines = linesOf('ab\r\nc');
    expect(lines.positionAt(-1)).toEqual({ line: 0, character: 0 });
    expect(lines.positionAt(3)).toEqual({ line: 0, character: 2 });
    expect(lines.positionAt(99)).toEqual({ line: 1, character: 1 });
    expect(lines.offsetAt(0, 99)).toBe(2);
    expect(lines.offsetAt(9, 0)).toBe(5);
    expect(lines.offsetAt(-1, 5)).toBe(0);
    expect(lines.lineText(2)).toBe('');
  });

  it('lead from every offset outside a line break to its position and back', () => {
    const text = fc.string({ unit: fc.constantFrom('a', '\n', '\r', 'é', '\u{1F697}') });
    fc.assert(
      fc.property(text, (written) => {
        const lines = linesOf(written);
        for (let offset = 0; offset <= written.length; offset++) {
          const { line, character } = lines.positionAt(offset);
          expect(lines.startOf(line)).toBeLessThanOrEqual(offset);
          const back = lines.offsetAt(line, character);
          if (written[offset - 1] === '\r' && written[offset] === '\n') expect(back).toBe(offset - 1);
          else expect(back).toBe(offset);
        }
      }),
    );
  });
});
