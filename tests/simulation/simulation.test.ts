import { beforeAll, describe, expect, it } from 'vitest';
import { decisionRules, truths } from './gate';
import { gridSize } from './grid';
import { printed, summary } from './print';
import { comparisons, requirements } from './requirements';
import { tallied, talliedBends } from './run';
import { type Count, Tally } from './tally';

/** A small sample of what `npm run simulate` runs whole; its bounds are as much wider as a small sample needs. */
const jobs = 300;
const seed = 1;
let tally: Tally;
let bends: Tally;

beforeAll(() => {
  tally = tallied(
    Array.from({ length: jobs }, (_, i) => (i * 37) % gridSize),
    seed,
  );
  bends = talliedBends(
    Array.from({ length: gridSize / 5 }, (_, i) => 5 * i + 1),
    seed,
  );
}, 120_000);

const share = ({ hits, of }: Count): number => hits / of;

const added = (counts: readonly Count[]): Count => ({
  hits: counts.reduce((total, { hits }) => total + hits, 0),
  of: counts.reduce((total, { of }) => total + of, 0),
});

describe('the gate', () => {
  it('has seen every job once under each rule', () => {
    for (const rule of decisionRules)
      expect(added(truths.map((truth) => tally.of('gate', rule, truth, 'all'))).of).toBe(jobs);
  });

  for (const rule of decisionRules)
    it(`passes no job that is out by more than 3 mm under ${rule}`, () => {
      const out = added(['out by 3–5', 'out by > 5'].map((truth) => tally.of('gate', rule, truth, 'all')));
      expect(out.of).toBeGreaterThan(80);
      expect(out.hits).toBe(0);
    });

  it('passes next to no job that is out by 1–3 mm under guarded', () => {
    const out = tally.of('gate', 'guarded', 'out by 1–3', 'all');
    expect(out.of).toBeGreaterThan(40);
    expect(share(out)).toBeLessThanOrEqual(0.05);
  });

  it('passes sound jobs, and no more of them under guarded than under simple', () => {
    const [simple, guarded] = decisionRules.map((rule) => tally.of('gate', rule, 'repaired', 'all'));
    expect(simple.hits).toBeGreaterThan(5);
    expect(guarded.hits).toBeLessThanOrEqual(simple.hits);
    const good = added(
      ['none', 'one'].map((state) => tally.of('gate', 'simple', 'repaired', 'good base', state)),
    );
    expect(good.of).toBeGreaterThan(0);
    expect(good.hits).toBe(good.of);
  });
});

describe('control points', () => {
  const among = (state: string, conclusion: string) =>
    added([6, 8, 12].map((count) => tally.of('control', state, count, 0.5, conclusion)));

  it('names the one that moved, of six or more, and no other', () => {
    const named = among('one', 'all moved ones named');
    expect(named.of).toBeGreaterThan(15);
    expect(named.of - named.hits).toBeLessThanOrEqual(1);
    expect(among('one', 'a sound one accused').hits).toBeLessThanOrEqual(1);
    expect(among('one', 'a moved one missed').hits).toBe(0);
  });

  it('accuses none where none has moved', () => {
    const accused = among('none', 'a sound one accused');
    expect(accused.of).toBeGreaterThan(15);
    expect(accused.hits).toBeLessThanOrEqual(1);
  });

  it('keeps a zone that moved out of the base where the sound one is stated', () => {
    const missed = among('stated zone', 'a moved one missed');
    expect(missed.of).toBeGreaterThan(15);
    expect(missed.hits).toBe(0);
  });

  it('says of nearly every zone that moved that it cannot tell', () => {
    const ambiguous = among('zone', 'ambiguous');
    expect(ambiguous.of).toBeGreaterThan(15);
    expect(share(ambiguous)).toBeGreaterThan(0.85);
  });
});

describe('intervals', () => {
  for (const quantity of ['shift', 'twist of a part', 'twist at a station'])
    it(`cover the true ${quantity} where the base is right`, () => {
      const covered = tally.of('coverage', quantity, 0.5, 'right');
      expect(covered.of).toBeGreaterThan(500);
      expect(share(covered)).toBeGreaterThan(0.92);
      expect(share(covered)).toBeLessThan(0.98);
    });

  it('cover the true recovery of a pull', () => {
    const covered = tally.of('coverage', 'recovery of a pull', 0.5, 'right');
    expect(covered.of).toBeGreaterThan(100);
    expect(share(covered)).toBeGreaterThan(0.9);
    expect(share(covered)).toBeLessThan(0.985);
  });

  it('cover the true spring-back ratio', () => {
    const covered = added(
      ['spring-back ratio, one pull', 'spring-back ratio, more pulls'].map((quantity) =>
        tally.of('coverage', quantity, 0.5, 'right'),
      ),
    );
    expect(covered.of).toBeGreaterThan(50);
    expect(share(covered)).toBeGreaterThan(0.9);
  });

  it('hold the true start of a bend, whichever of its two places is meant', () => {
    for (const truth of ['bend: start of the hinge', 'bend: corner']) {
      const covered = bends.of('coverage', truth, 0.5, 'right');
      expect(covered.of).toBeGreaterThan(100);
      expect(share(covered), truth).toBeGreaterThan(0.89);
      expect(share(covered), truth).toBeLessThan(0.99);
    }
    const [planned, byReadings] = ['planned hold', 'h − 2u'].map((limit) => bends.of('hold', limit, 0, 0.5));
    expect(planned.of).toBeGreaterThan(100);
    expect(share(planned)).toBeGreaterThan(share(byReadings));
    expect(share(planned)).toBeGreaterThan(0.9);
  });

  it('are too short where the build scatters more than the file says', () => {
    const [stated, more] = [0.5, 0.8].map((scatter) => tally.of('coverage', 'shift', scatter, 'right'));
    expect(share(more)).toBeLessThan(share(stated));
  });
});

describe('bends', () => {
  it('are not declared on rails that are straight', () => {
    const declared = added(['yawed', 'undamaged'].map((rail) => tally.of('bend declared', rail, 0.5)));
    expect(declared.of).toBeGreaterThan(25);
    expect(declared.hits).toBeLessThanOrEqual(1);
  });

  it('are declared on most rails that are clearly bent', () => {
    const declared = added([0.5, 0.8].map((scatter) => tally.of('bent rail', 'large', scatter, 'bend')));
    expect(declared.of).toBeGreaterThan(3);
    expect(share(declared)).toBeGreaterThan(0.5);
  });
});

describe('the print', () => {
  it('has a row for each requirement', () => {
    const text = printed(tally, 'npm run simulate', jobs, seed);
    const short = summary(tally, 'npm run simulate', jobs, seed, 'all.md');
    const rows = [...requirements(tally), ...comparisons(tally)];
    expect(new Set(rows.map(({ what }) => what)).size).toBe(rows.length);
    for (const { what, count } of rows) {
      expect(count.of, what).toBeGreaterThan(0);
      expect(text).toContain(`| ${what} |`);
      expect(short).toContain(`| ${what} |`);
    }
  });

  it('adds the counts of two threads to those of one', () => {
    const cells = [3, 1234, 7001, 9876];
    const together = new Tally();
    together.merge(tallied(cells.slice(0, 2), seed).entries());
    together.merge(tallied(cells.slice(2), seed).entries());
    const sorted = (of: Tally) => of.entries().sort(([a], [b]) => (a < b ? -1 : 1));
    expect(sorted(together)).toEqual(sorted(tallied(cells, seed)));
  });
});
