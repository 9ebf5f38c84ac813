import { describe, expect, it } from 'vitest';
import { canonicalJson, sortedSet } from './canonical';

describe('the canonical form', () => {
  // the example of RFC 8785, 3.2.2 and 3.2.3 (from memory), without its null and its number beyond double precision
  it('is that of RFC 8785', () => {
    const value = {
      string: '€$\u000f\nA\'B"\\\\"/',
      literals: [true, false],
      '1': 'one',
      '\u00e9': 4.5,
      z: 2e-3,
    };
    expect(canonicalJson(value)).toBe(
      '{"1":"one","literals":[true,false],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/","z":0.002,"é":4.5}',
    );
  });

  it('sorts keys by UTF-16 units', () => {
    expect(canonicalJson({ '\u20ac': 1, '\r': 2, '\ufb33': 3, '1': 4, '\ud83d\ude00': 5, '\u0080': 6 })).toBe(
      '{"\\r":2,"1":4,"\u0080":6,"€":1,"😀":5,"\ufb33":3}',
    );
  });

  it.each([
    [1.0000004, '1'],
    [0.0000005, '0.000001'],
    [-0.0000005, '-0.000001'],
    [-0.0000001, '0'],
    [-0, '0'],
    [25.4 * 0.1, '2.54'],
    [1000, '1000'],
  ])('writes %d as %s', (value, text) => expect(canonicalJson(value)).toBe(text));

  it('leaves out what is empty, at every depth', () => {
    expect(canonicalJson({ a: null, b: [], c: { d: {} }, e: undefined, f: [[], 1], g: 0, h: '' })).toBe(
      '{"f":[1],"g":0,"h":""}',
    );
    expect(canonicalJson({})).toBeUndefined();
  });

  it('has lists whose order says nothing sorted, and nothing in them twice', () => {
    expect(sortedSet(['b', 'a', 'b', { y: 1, x: 2 }, { x: 2, y: 1 }])).toEqual(['a', 'b', { x: 2, y: 1 }]);
  });
});
