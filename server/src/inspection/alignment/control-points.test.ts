import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../geometry/vector';
import { baseFit, type Candidate, collinear, memberAgrees, trustedBase, unchecked } from './control-points';

const sound: Record<string, Vec3> = {
  'cowl.L': [1480, 612, 905],
  'cowl.R': [1480, -612, 905],
  'front.L': [1200, 420, 95],
  'front.R': [1200, -420, 95],
  'rear.L': [-350, 455, 90],
  'rear.R': [-350, -455, 90],
  'tail.L': [-1050, 388, 296],
  'tail.R': [-1050, -388, 296],
};

const candidate = (id: string, shift: Vec3 = [0, 0, 0], variance = 0.5): Candidate => ({
  id,
  reference: sound[id],
  measured: [sound[id][0] + shift[0], sound[id][1] + shift[1], sound[id][2] + shift[2]],
  variance,
  limits: [
    [-3, 3],
    [-3, 3],
    [-3, 3],
  ],
});

const withShifts = (ids: readonly string[], shifts: Record<string, Vec3>): Candidate[] =>
  ids.map((id) => candidate(id, shifts[id]));
const ids = Object.keys(sound);
const idsOf = (members: readonly Candidate[]) => members.map((member) => member.id);
const choiceOf = (candidates: Candidate[]) => trustedBase(candidates, () => candidates);

describe('trustedBase', () => {
  it('keeps all that agree', () => {
    const choice = choiceOf(withShifts(ids, { 'rear.L': [1, -1, 0.5] }));
    expect(idsOf(choice.base.members)).toEqual(ids);
    expect(choice).toMatchObject({ movedIds: [], alternatives: [], consistent: true });
  });

  it('drops the one, or the two, that moved', () => {
    const one = choiceOf(withShifts(ids, { 'rear.R': [0, 8, 6] }));
    expect(one.movedIds).toEqual(['rear.R']);
    expect(one.alternatives).toEqual([]);
    const two = choiceOf(withShifts(ids, { 'rear.R': [0, 8, 6], 'cowl.L': [-9, 0, 0] }));
    expect(two.movedIds).toEqual(['cowl.L', 'rear.R']);
  });

  it('accepts what is off by less than the tolerance, or less than three times its doubt', () => {
    expect(choiceOf(withShifts(ids, { 'tail.L': [0, 0, 2] })).movedIds).toEqual([]);
    const doubtful = ids.map((id) => candidate(id, id === 'tail.L' ? [0, 6, 0] : [0, 0, 0], 4));
    expect(choiceOf(doubtful).movedIds).toEqual([]);
  });

  it('tells of two bodies that each agree within themselves', () => {
    const moved: Vec3 = [-30, 10, 25];
    const choice = choiceOf(
      withShifts(ids, { 'front.L': moved, 'front.R': moved, 'cowl.L': moved, 'cowl.R': moved }),
    );
    const halves = [ids.slice(0, 4), ids.slice(4)];
    expect(halves).toContainEqual(idsOf(choice.base.members));
    expect(choice.alternatives.map((each) => idsOf(each.members))).toEqual(
      halves.filter((half) => half[0] !== choice.base.members[0].id),
    );
  });

  it('does not take a mixture of two bodies for one, however doubtful its scatter makes it', () => {
    // three points moved together against three that did not: with Birge's factor unbounded, four of mixed origin agree
    const six = ['cowl.L', 'front.L', 'front.R', 'rear.L', 'rear.R', 'tail.L'];
    const moved: Vec3 = [-30, 10, 25];
    const choice = choiceOf(withShifts(six, { 'cowl.L': moved, 'front.L': moved, 'front.R': moved }));
    const bodies = [six.slice(0, 3), six.slice(3)];
    expect(bodies).toContainEqual(idsOf(choice.base.members));
    expect(choice.alternatives.length).toBeGreaterThan(0);
    const chiSquare = choice.base.fit.chiSquare;
    expect(chiSquare).toBeLessThan(1e-6);
  });

  it('keeps all where none agree', () => {
    const choice = choiceOf([
      candidate('front.L', [30, 0, 0]),
      candidate('rear.L', [0, -20, 20]),
      candidate('rear.R', [-40, 0, -30]),
      candidate('cowl.R', [0, 40, 40]),
    ]);
    expect(choice.consistent).toBe(false);
    expect(choice.base.members).toHaveLength(4);
  });

  it('does not depend on the order', () => {
    const candidates = withShifts(ids, { 'rear.R': [0, 8, 6], 'cowl.L': [4, 3, 0], 'tail.L': [0, 0, 4] });
    const expected = choiceOf(candidates);
    fc.assert(
      fc.property(fc.shuffledSubarray(candidates, { minLength: candidates.length }), (shuffled) => {
        const choice = choiceOf(shuffled);
        expect(idsOf(choice.base.members)).toEqual(idsOf(expected.base.members));
        expect(choice.alternatives.map((each) => idsOf(each.members))).toEqual(
          expected.alternatives.map((each) => idsOf(each.members)),
        );
      }),
      { numRuns: 20 },
    );
  });

  it('finds the moved ones among very many', () => {
    const many = Array.from({ length: 24 }, (_, i): Candidate => {
      const reference: Vec3 = [
        -1000 + 150 * i,
        (i % 2 === 0 ? 1 : -1) * (400 + ((i * 37) % 130)),
        90 + ((i * 211) % 400),
      ];
      const shift = i % 4 === 1 ? 9 + i : 0;
      return {
        ...candidate('rear.L'),
        id: `p${String(i).padStart(2, '0')}`,
        reference,
        measured: [reference[0], reference[1] + shift, reference[2]],
      };
    });
    expect(choiceOf(many).movedIds).toEqual(['p01', 'p05', 'p09', 'p13', 'p17', 'p21']);
  });
});

describe('memberAgrees', () => {
  it('takes the plain residuals of three points', () => {
    const three = [candidate('front.L', [9, 0, 0]), candidate('front.R'), candidate('rear.L')];
    const base = baseFit(three);
    const worst = Math.max(...base.fit.residuals.flat().map(Math.abs));
    expect(worst).toBeGreaterThan(3);
    expect(three.every((_, i) => memberAgrees(base, i))).toBe(false);
    expect(
      three.every((_, i) => memberAgrees(baseFit([candidate('front.L', [3, 0, 0]), ...three.slice(1)]), i)),
    ).toBe(true);
  });
});

describe('collinear and unchecked', () => {
  const line: Vec3[] = [
    [0, 0, 0],
    [1000, 0, 0],
    [2000, 0, 0],
  ];
  it('need 10 mm and a hundredth of the length off the line', () => {
    // one of three points h off a line: second singular value h √(2/3), over √3 → h √2/3
    expect(collinear([...line.slice(0, 1), [1000, 20, 0], line[2]])).toBe(true);
    expect(collinear([...line.slice(0, 1), [1000, 22, 0], line[2]])).toBe(false);
    expect(collinear([...line.slice(0, 1), [5000, 50, 0], [10000, 0, 0]])).toBe(true);
  });

  it('need a fourth point 10 mm off the plane', () => {
    const square: Vec3[] = [
      [0, 0, 0],
      [1000, 0, 0],
      [0, 1000, 0],
      [1000, 1000, 0],
    ];
    expect(unchecked(square.slice(0, 3))).toBe(true);
    expect(unchecked(square)).toBe(true);
    // one corner h up: out of the best plane by h/4 each
    expect(unchecked([...square.slice(0, 3), [1000, 1000, 38]])).toBe(true);
    expect(unchecked([...square.slice(0, 3), [1000, 1000, 42]])).toBe(false);
  });
});
