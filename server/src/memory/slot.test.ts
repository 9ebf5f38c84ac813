import { expect, test } from 'vitest';
import { Slot } from './slot';

test('a slot holds one value an object, and a second one takes its place', () => {
  const lengths = new Slot<readonly string[], number>();
  const [one, other] = [['a'], ['a']];
  expect(lengths.get(one)).toBeUndefined();
  lengths.set(one, 1);
  lengths.set(one, 2);
  expect([lengths.get(one), lengths.get(other)]).toEqual([2, undefined]);
});

test('slots do not see each other, nor does anyone who looks at or copies the object', () => {
  const [first, second] = [new Slot<{ a: number }, string>(), new Slot<{ a: number }, string>()];
  const object = { a: 1 };
  first.set(object, 'x');
  expect(second.get(object)).toBeUndefined();
  expect(object).toStrictEqual({ a: 1 });
  expect(JSON.stringify(object)).toBe('{"a":1}');
  expect(first.get({ ...object })).toBeUndefined();
});
