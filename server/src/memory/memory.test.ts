import { expect, test } from 'vitest';
import { Memory } from './memory';

test('a memory holds one value an object, and a second one takes its place', () => {
  const lengths = new Memory<readonly string[], number>();
  const [one, other] = [['a'], ['a']];
  expect(lengths.get(one)).toBeUndefined();
  lengths.set(one, 1);
  lengths.set(one, 2);
  expect([lengths.get(one), lengths.get(other)]).toEqual([2, undefined]);
});

test('memories do not see each other, nor does anyone who looks at or copies the object', () => {
  const [first, second] = [new Memory<{ a: number }, string>(), new Memory<{ a: number }, string>()];
  const object = { a: 1 };
  first.set(object, 'x');
  expect(second.get(object)).toBeUndefined();
  expect(object).toStrictEqual({ a: 1 });
  expect(JSON.stringify(object)).toBe('{"a":1}');
  expect(first.get({ ...object })).toBeUndefined();
});
