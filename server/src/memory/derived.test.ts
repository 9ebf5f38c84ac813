import { expect, test } from 'vitest';
import { derived, derivedFrom, derivedWithEach } from './derived';

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

test('with each of a list an answer is made once, wherever the other stands in the next list', () => {
  const made: string[] = [];
  const answers = derivedWithEach((key: { name: string }, other: { name: string }, word: string) => {
    made.push(`${key.name}${other.name}`);
    return `${key.name}${other.name}${word}`;
  });
  const [k, a, b, c] = ['k', 'a', 'b', 'c'].map((name) => ({ name }));
  expect(answers(k, [a, b], '!')).toEqual(['ka!', 'kb!']);
  expect(answers(k, [a, b], '!')).toBe(answers(k, [a, b], '!'));
  expect(answers(k, [c, b, a], '!')).toEqual(['kc!', 'kb!', 'ka!']);
  expect(made).toEqual(['ka', 'kb', 'kc']);
  // one that was gone is no longer held, another basis is another question
  answers(k, [b], '!');
  expect(answers(k, [a, b], '!')).toEqual(['ka!', 'kb!']);
  expect(answers(k, [b], '?')).toEqual(['kb?']);
  expect(made).toEqual(['ka', 'kb', 'kc', 'ka', 'kb']);
});
