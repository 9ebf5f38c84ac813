import { describe, expect, it } from 'vitest';
import { nodeAtPath, plainValueOf } from './plain-value';
import { offsetsOf } from './tree';
import { parseText } from './yaml/parse';

const text = 'points:\n  latch: { centre: [3050, 12, 780] }\n  rail:\nspans:\n  - from: a\n12: x\n';
const { root } = parseText(text);

const writtenAt = (path: (string | number)[]): string => {
  const { node, entry } = nodeAtPath(root, path);
  const { start, end } = offsetsOf((node ?? entry!).place);
  return text.slice(start, end);
};

describe('plain values', () => {
  it('hold an empty entry as null', () => {
    expect(JSON.stringify(plainValueOf(root))).toBe(
      '{"12":"x","points":{"latch":{"centre":[3050,12,780]},"rail":null},"spans":[{"from":"a"}]}',
    );
    expect(plainValueOf(null)).toBeNull();
  });
});

describe('a path into a tree', () => {
  it('leads to the node, through keys and indices', () => {
    expect(writtenAt(['points', 'latch', 'centre', 1])).toBe('12');
    expect(writtenAt(['spans', 0, 'from'])).toBe('a');
    expect(writtenAt([12])).toBe('x');
    expect(nodeAtPath(root, ['spans', 0, 'from'])).toMatchObject({ found: 3, complete: true });
    expect(nodeAtPath(root, [])).toMatchObject({ node: root, entry: null, found: 0, complete: true });
  });

  it('ends at the deepest that is there', () => {
    expect(writtenAt(['points', 'latch', 'left'])).toBe('{ centre: [3050, 12, 780] }');
    const missing = nodeAtPath(root, ['points', 'latch', 'left', 0]);
    expect(missing).toMatchObject({ found: 2, complete: false });
    expect(missing.entry?.key.value).toBe('latch');
    expect(nodeAtPath(root, ['spans', 7])).toMatchObject({ found: 1, complete: false });
  });

  it('leads to an entry without a value', () => {
    const empty = nodeAtPath(root, ['points', 'rail']);
    expect(empty).toMatchObject({ node: null, found: 2, complete: true });
    expect(empty.entry?.key.value).toBe('rail');
  });
});
