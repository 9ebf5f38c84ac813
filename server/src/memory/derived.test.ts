import { expect, test } from 'vitest';
import { derived, derivedFrom } from './derived';

test('an answer is made once for each object, and anew where the basis is another', () => {
  const asked: unknown[][] = [];
  const answer = derived((key: object, ...basis: unknown[]) => {
    asked.push([key, ...basis]);
    return asked.length;
  });
  const [one, other] = [{}, {}];
  expect([answer(one, 'x', 1), answer(one, 'x', 1)]).toEqual([1, 1]);
  expect([answer(other, 'x', 1), answer(one, 'x', 2)]).toEqual([2, 3]);
  // only the last basis is kept
  expect([answer(one, 'x', 1), answer(one)]).toEqual([4, 5]);
});

test('an answer of nothing is remembered, a throw is not', () => {
  let calls = 0;
  const nothing = derived((_: object) => void calls++);
  const key = {};
  nothing(key);
  nothing(key);
  expect(calls).toBe(1);
  const fails = derived((_: object) => {
    calls++;
    throw new Error('no');
  });
  expect(() => fails(key)).toThrow('no');
  expect(() => fails(key)).toThrow('no');
  expect(calls).toBe(3);
});

test('a question that is a new object is known by what it is made of', () => {
  let calls = 0;
  const place = {};
  const answer = derivedFrom(
    ({ at, by }: { at: object; by: readonly number[] }) => [at, ...by],
    ({ by }) => `${++calls} ${by.join(' ')}`,
  );
  expect([answer({ at: place, by: [1, 2] }), answer({ at: place, by: [1, 2] })]).toEqual(['1 1 2', '1 1 2']);
  expect([answer({ at: {}, by: [1, 2] }), answer({ at: place, by: [1, 2] })]).toEqual(['2 1 2', '1 1 2']);
  expect([answer({ at: place, by: [1] }), answer({ at: place, by: [1, 2] })]).toEqual(['3 1', '4 1 2']);
});
