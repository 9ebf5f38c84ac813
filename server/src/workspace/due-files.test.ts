import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DueFiles } from './due-files';

const taken = (due: DueFiles): string[] => {
  const keys: string[] = [];
  for (let next = due.take(); next !== null; next = due.take()) keys.push(next.key);
  return keys;
};

describe('files that are due', () => {
  it('come in their order, urgent ones first, each once', () => {
    const due = new DueFiles();
    for (const key of ['a', 'b', 'c', 'a']) due.add(key);
    due.add('c', true);
    due.add('d', true);
    due.add('d');
    expect(due.size).toBe(4);
    expect(due.has('c')).toBe(true);
    expect(due.take()).toEqual({ key: 'c', isUrgent: true });
    expect(due.has('c')).toBe(false);
    expect(taken(due)).toEqual(['d', 'a', 'b']);
  });

  it('are those that were added and not taken away', () => {
    const step = fc.tuple(fc.constantFrom('add', 'urgent', 'delete'), fc.constantFrom(...'abcdefg'));
    fc.assert(
      fc.property(fc.array(step), (steps) => {
        const due = new DueFiles();
        const left = new Set<string>();
        for (const [act, key] of steps) {
          if (act === 'delete') due.delete(key);
          else due.add(key, act === 'urgent');
          if (act === 'delete') left.delete(key);
          else left.add(key);
        }
        expect(due.size).toBe(left.size);
        expect(taken(due).sort()).toEqual([...left].sort());
      }),
    );
  });
});
