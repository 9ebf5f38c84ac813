import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { codeWith, sameWord, wordIn } from './words';

const codeOf = (word: string): number =>
  [...word].reduce((code, letter) => codeWith(code, letter.charCodeAt(0)), 0);

describe('a name as it was met before', () => {
  it('is the same text as at that place, whatever names came before it', () =>
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.string(), fc.string(), fc.string())), (texts) => {
        for (const [before, word, after] of texts) {
          const text = before + word + after;
          expect(wordIn(text, before.length, before.length + word.length, codeOf(word))).toBe(word);
          expect(sameWord(word)).toBe(word);
        }
      }),
    ));

  it('is not another one with the same code', () => {
    expect(codeOf('Aa')).toBe(codeOf('BB'));
    expect(['Aa', 'BB', 'Aa'].map(sameWord)).toEqual(['Aa', 'BB', 'Aa']);
  });

  it('may be a number or nothing', () =>
    expect(['', '7', '__proto__'].map(sameWord)).toEqual(['', '7', '__proto__']));
});
