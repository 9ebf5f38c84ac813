import { describe, expect, it } from 'vitest';
import { newsBetween, type Said, saidBy } from './check-again';

const said = (...lines: string[]): Said => ({ lines, code: 0 });

describe('a check that is made again', () => {
  it('keeps what is printed and complained of in its order, with the code', async () => {
    const kept = await saidBy(async (output) => {
      output.print('first');
      output.complain('second');
      output.print('third');
      return 1;
    });
    expect(kept).toEqual({ lines: ['first', 'second', 'third'], code: 1 });
  });

  it('tells all at first', () => {
    expect(newsBetween(null, said('a', 'b'))).toEqual(['a', 'b', '2 findings']);
    expect(newsBetween(null, said())).toEqual(['nothing found']);
  });

  it('tells what is gone, what has come and how much there is, and nothing where nothing changed', () => {
    const before = said('a: error', 'b: warning');
    const now = said('b: warning', 'c: warning');
    expect(newsBetween(before, now)).toEqual(['gone: a: error', 'c: warning', '2 findings']);
    expect(newsBetween(before, before)).toEqual([]);
    expect(newsBetween(now, said())).toEqual(['gone: b: warning', 'gone: c: warning', 'nothing found']);
  });

  it('tells a line of two that are the same, and none that only moved', () => {
    expect(newsBetween(said('a', 'a', 'b'), said('b', 'a'))).toEqual(['gone: a', '2 findings']);
    expect(newsBetween(said('a', 'b'), said('b', 'a'))).toEqual([]);
    expect(newsBetween(said('a'), said('a', 'a'))).toEqual(['a', '2 findings']);
  });
});
