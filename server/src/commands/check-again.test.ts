import { describe, expect, it } from 'vitest';
import { newsBetween, type Said, saidBy } from './check-again';

const said = (findings: string[], complaints: string[] = [], code = 0): Said => ({
  findings,
  complaints,
  code,
});

describe('a check that is made again', () => {
  it('keeps what is printed and what is complained of, with the code', async () => {
    const kept = await saidBy(async (output) => {
      output.print('first');
      output.complain('second');
      output.print('third');
      return 1;
    });
    expect(kept).toEqual({ findings: ['first', 'third'], complaints: ['second'], code: 1 });
  });

  it('is not a whole one where something was said before it', async () => {
    expect(await saidBy(async () => 0, ['no watch'])).toEqual({
      findings: [],
      complaints: ['no watch'],
      code: 2,
    });
  });

  it('tells all at first', () => {
    expect(newsBetween(null, said(['a', 'b']))).toEqual(['a', 'b', '2 findings']);
    expect(newsBetween(null, said([]))).toEqual(['nothing found']);
  });

  it('tells what is gone, what has come and how much there is, and nothing where nothing changed', () => {
    const before = said(['a: error', 'b: warning']);
    const now = said(['b: warning', 'c: warning']);
    expect(newsBetween(before, now)).toEqual(['gone: a: error', 'c: warning', '2 findings']);
    expect(newsBetween(before, before)).toEqual([]);
    expect(newsBetween(now, said([]))).toEqual(['gone: b: warning', 'gone: c: warning', 'nothing found']);
  });

  it('tells a line of two that are the same, and none that only moved', () => {
    expect(newsBetween(said(['a', 'a', 'b']), said(['b', 'a']))).toEqual(['gone: a', '2 findings']);
    expect(newsBetween(said(['a', 'b']), said(['b', 'a']))).toEqual([]);
    expect(newsBetween(said(['a']), said(['a', 'a']))).toEqual(['a', '2 findings']);
  });

  it('tells nothing of what only stands on another line, and of two the one that is gone', () => {
    const [third, ninth] = ['a.yaml:3:5: error x/y w', 'a.yaml:9:5: error x/y w'];
    expect(newsBetween(said([third]), said([ninth]))).toEqual([]);
    expect(newsBetween(said([third, ninth]), said([ninth]))).toEqual([`gone: ${third}`, '1 finding']);
    expect(newsBetween(said([ninth]), said([third, ninth]))).toEqual([third, '2 findings']);
    const bold = (line: string) => line.replace(/^\S+(?=:)/, '\u001b[1m$&\u001b[22m');
    expect(newsBetween(said([bold(third)]), said([bold(ninth)]))).toEqual([]);
    expect(newsBetween(said([third]), said(['b.yaml:3:5: error x/y w']))).toHaveLength(3);
  });

  it('counts findings alone, and never calls half a check a clean one', () => {
    const known = said([], ['framewright: 3 known findings of the baseline not shown']);
    expect(newsBetween(null, known)).toEqual([...known.complaints, 'nothing found']);
    const unread = said(['a'], ['framewright: b: it may not be read'], 2);
    expect(newsBetween(known, unread)).toEqual([
      `gone: ${known.complaints[0]}`,
      unread.complaints[0],
      'a',
      '1 finding, but not everything could be checked',
    ]);
  });
});
