import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ParseState } from '../parse-state';
import { ours } from '../testing/plain-tree';
import type { Node } from '../tree';
import { denseValue } from './dense';
import { leafNode } from './leaf';

const denseOf = (value: string): { node: Node | null; state: ParseState } => {
  const state = new ParseState(value, []);
  return { node: denseValue(state, 0, value.length, { start: 0 }), state };
};
const leafOf = (value: string): { node: Node | null; state: ParseState } => {
  const state = new ParseState(value, []);
  const block = { start: 0 };
  return { node: leafNode(state, { from: 0, to: value.length, under: 'key', indent: 2, block }), state };
};
const sourcesOf = (node: Node | null): string[] => {
  if (!node) return [];
  if (node.kind === 'scalar') return [node.source];
  if (node.kind === 'sequence') return node.items.flatMap(sourcesOf);
  return node.entries.flatMap((entry) => [entry.key.source, ...sourcesOf(entry.value)]);
};

describe('values of one line in plain writing', () => {
  it.each([
    '[1204.1, 421.0, 95.4]',
    '[[1203.8, -419.2, 94.7], [1203.9, -419.3, 94.7]]     # repeats',
    '{ both: [1200, 420, 95], part: floor, base: true }',
    '{ hook: rail-tip-lower.L, direction: [0.2, -1, 0], force: 18 kN }',
    'unreachable',
    '2026-03-02T09:10',
    '[]',
  ])('are read without the yaml package: %s', (value) => {
    const { node } = denseOf(value);
    expect(node).not.toBeNull();
    expect(ours(node)).toEqual(ours(leafOf(value).node));
  });

  it.each([
    '"quoted"',
    '[1, 2',
    '[1, 2,]',
    '{ a:1 }',
    '*alias',
    '| ',
    'a: b',
    '~',
    'a\tb',
    '[a b, "c"]',
    '- 1',
  ])('are left to the yaml package where they are not plain: %s', (value) => {
    expect(denseOf(value).node).toBeNull();
  });

  it('are the same values, sources and ranges as the yaml package reads', () => {
    const character = fc.constantFrom(
      ...' [],{}:#-.\'"019aeExnN+~!&*|>%@_\\=é\u00a0\u2028'.split(''),
      ', ',
      ': ',
      ' #',
      '[1, 2]',
      '0x1F',
      '.inf',
      'null',
    );
    let read = 0;
    fc.assert(
      fc.property(fc.array(character, { minLength: 1, maxLength: 9 }), (characters) => {
        const value = characters.join('').trim();
        if (value === '' || value.startsWith('#')) return;
        const { node, state } = denseOf(value);
        if (!node) return;
        read++;
        const whole = leafOf(value);
        expect(state.problems.list.map((problem) => problem.rule)).toEqual(
          whole.state.problems.list.map((problem) => problem.rule),
        );
        expect(ours(node)).toEqual(ours(whole.node));
        expect(sourcesOf(node)).toEqual(sourcesOf(whole.node));
      }),
      { numRuns: 20_000 },
    );
    expect(read).toBeGreaterThan(500);
  });
});
