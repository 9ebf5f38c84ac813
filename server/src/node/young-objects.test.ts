import { Script } from 'node:vm';
import { expect, test } from 'vitest';
import { keptYoung } from './young-objects';

/** V8 refuses what it made of a program under other switches; of the program itself it compares the length. */
const isRefused = (program: string, cachedData: Buffer): boolean | undefined =>
  new Script(program, { cachedData }).cachedDataRejected;

test('V8 works under another switch until it is put back', () => {
  const made = new Script('"first program"').createCachedData();
  // a text that was compiled before is not looked at again
  expect(isRefused('"other program"', made)).toBe(false);
  const asBefore = keptYoung();
  expect(isRefused('"third program"', made)).toBe(true);
  asBefore();
  expect(isRefused('"forth program"', made)).toBe(false);
});
