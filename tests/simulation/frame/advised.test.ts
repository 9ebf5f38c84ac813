import { describe, expect, it } from 'vitest';
import { Tally } from '../tally';
import { adviceCellAt, adviceGridSize, pairsReadBefore, talliedAdvice } from './advised';
import { framePrinted } from './print';
import { frameRequirements } from './requirements';

/** Each eighth body: all combinations, five of each. */
const some = Array.from({ length: adviceGridSize / 8 }, (_, i) => i);

describe('bodies read as advised', () => {
  const tally = talliedAdvice(some, 1);

  it('are each combination as often as any other', () => {
    const seen = new Map<string, number>();
    for (const index of some) {
      const { pairsRead, scatterMm, uncertaintyMm } = adviceCellAt(index);
      const key = [pairsRead, scatterMm, uncertaintyMm].join(' ');
      seen.set(key, (seen.get(key) ?? 0) + 1);
    }
    expect(new Set(seen.values()).size).toBe(1);
    expect(seen.size).toBe(pairsReadBefore.length * 4);
  });

  it('can seldom be decided before, and nearly always after', () => {
    const before = tally.of('advice', 'all', 0.5, 'decided before');
    const after = tally.of('advice', 'all', 0.5, 'decided after');
    expect(before.hits).toBeLessThan(before.of / 2);
    expect(after.hits).toBeGreaterThanOrEqual(0.9 * after.of);
    expect(tally.of('advice', 0, 0.5, 'decided before').hits).toBe(0);
  });

  it('are the same in two shares, and printed with their rows', () => {
    const parts = new Tally();
    parts.merge(talliedAdvice(some.slice(0, 11), 1).entries());
    parts.merge(talliedAdvice(some.slice(11), 1).entries());
    expect(new Map(parts.entries())).toEqual(new Map(tally.entries()));
    const text = framePrinted(tally);
    expect(text).toContain('scatter 0.5, 2 pairs read before');
    for (const { what } of frameRequirements(tally)) expect(text).toContain(`| ${what} |`);
  });
});
