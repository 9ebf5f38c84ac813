import { mkdtempSync, readdirSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Script } from 'node:vm';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { keptCode } from './kept-code';

const text = '(() => { const twice = (n) => n + n; return twice(21); })()';
let folder = '';

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'framewright-code-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const files = () => readdirSync(join(folder, 'code-1'));
const only = () => join(folder, 'code-1', files()[0]);

/** One run of a bundle: what it gave, and whether V8 took what was kept; null where nothing was. */
function run(source = text): { given: unknown; isTaken: boolean | null } {
  const kept = keptCode('bundle', source, folder);
  const script = new Script(source, { cachedData: kept.data });
  const given = script.runInThisContext();
  kept.add(script);
  return { given, isTaken: kept.data === undefined ? null : !script.cachedDataRejected };
}

describe('code that V8 has compiled', () => {
  it('is kept at the first run and taken at the next', () => {
    expect(run()).toEqual({ given: 42, isTaken: null });
    expect(files()).toHaveLength(1);
    expect(run()).toEqual({ given: 42, isTaken: true });
  });

  it('is added to by the first three runs, and then left', () => {
    const states = [1, 2, 3, 4].map(() => {
      run();
      return readFileSync(only())[43];
    });
    expect(states).toEqual([1, 2, 3, 3]);
  });

  it('is another one for another text of the same length', () => {
    run();
    expect(run(text.replace('21', '31'))).toEqual({ given: 62, isTaken: null });
    expect(files()).toHaveLength(2);
  });

  it('that was damaged is none, and is made anew', () => {
    run();
    const bytes = readFileSync(only());
    for (const damaged of [
      bytes.subarray(0, 60),
      Buffer.alloc(0),
      bytes.map((byte, i) => (i === bytes.length - 9 ? byte ^ 1 : byte)),
    ]) {
      writeFileSync(only(), damaged);
      expect(run()).toEqual({ given: 42, isTaken: null });
      expect(readFileSync(only())[43]).toBe(1);
    }
  });

  it('that nobody has made for a month goes when another is made', () => {
    run();
    const old = files()[0];
    utimesSync(only(), 0, Date.now() / 1000 - 31 * 24 * 3600);
    run(`${text};`);
    expect(files()).toHaveLength(1);
    expect(files()).not.toContain(old);
  });

  it('stays a small number of files', () => {
    for (let i = 0; i < 30; i++) run(`${text};${' '.repeat(i)}`);
    expect(files()).toHaveLength(24);
  });

  it('is done without where there is no folder for it, or none can be made', () => {
    expect(keptCode('bundle', text, null).data).toBeUndefined();
    writeFileSync(join(folder, 'code-1'), 'a file is in the way');
    expect(run()).toEqual({ given: 42, isTaken: null });
    expect(run()).toEqual({ given: 42, isTaken: null });
    for (const none of ['/proc/none', join(folder, 'code-1')]) {
      const kept = keptCode('bundle', text, none);
      expect(() => kept.add(new Script(text))).not.toThrow();
      expect(kept.data).toBeUndefined();
    }
  });
});
