import { Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../../tests/published/seeded-random';
import { motionAt } from '../../geometry/small-motion';
import { add, type Vec3, zero } from '../../geometry/vector';
import {
  type Body,
  bodyWith,
  changed,
  changes,
  designOf,
  inverse,
  offsOf,
  onEachAxis,
  point,
  scope,
  wholeFit,
} from '../../testing/frame-points';
import { scatterElsewhere } from './frame-points';
import { joinedFit } from './joined';
import { type Observations, observed } from './observations';
import { calledFor } from './stories';
import { gainOf, isSignificant } from './story-gain';
import { namedSets, setStories, shiftOf } from './story-kinds';
import { toldOf } from './story-list';
import { subsetStories } from './story-subsets';
import { weighed } from './witnesses';

const scatter = scatterElsewhere(1);
const question = (body: Body, withWitnesses = true) => {
  const weighing = withWitnesses ? weighed(body.base, 1, body.groups, scatter) : null;
  const joined = weighing && joinedFit(body.base, 1, body.groups, weighing);
  return { ...body, weighing, scope: () => scope, toldBy: joined?.motion ?? null };
};
const figuresBy = ({ frame }: Observations) => ({ points: scope, toldBy: frame });
const shift =
  (by: Vec3, isMoved: (id: string, place: Vec3) => boolean) =>
  (id: string, place: Vec3): Vec3 =>
    isMoved(id, place) ? by : zero;
const isControl = (id: string) => /^(floor|toe|rear-frame|tunnel)/.test(id);

describe('the gain of a story', () => {
  const body = bodyWith(6, () => zero, 5);
  const beliefs = body.groups.map(({ points }, g) => ({
    points: points.map((_, i) => 1 - i / 10),
    group: 1 - g / 4,
  }));
  const observations = observed(body.base, body.groups, beliefs, scatter)!;
  const points = observations.points;
  /** V as it is written: (diag((v + s²)/ω) + g² 11ᵀ)/Ω for each group. */
  const covariance = points.map((a, i) =>
    points.map((b, j) => {
      const of = (index: number) => {
        let from = body.base.length;
        for (let g = 0; g < body.groups.length; g++) {
          if (index >= from && index < from + body.groups[g].points.length) return { g, i: index - from };
          from += body.groups[g].points.length;
        }
        return null;
      };
      const [one, other] = [of(i), of(j)];
      if (one === null || other === null || one.g !== other.g) return i === j ? a.variance : 0;
      const own = i === j ? (b.variance + scatter.own) / beliefs[one.g].points[one.i] : 0;
      return (own + scatter.shared) / beliefs[one.g].group;
    }),
  );
  const information = inverse(onEachAxis(covariance));
  const plain = wholeFit(designOf(points), offsOf(points), information);

  for (const told of toldOf(body.base, body.groups))
    it(`is what least squares with its columns gains: ${JSON.stringify(told.story)}`, () => {
      const found = gainOf(observations, told)!;
      const more = points.flatMap((each, i) => {
        const columns = told.columns(each, i);
        return [0, 1, 2].map((k) => Array.from({ length: told.unknowns }, (_, a) => columns?.[a]?.[k] ?? 0));
      });
      const design = designOf(points).map((row, i) => [...row, ...more[i]]);
      const whole = wholeFit(design, offsOf(points), information);
      expect(found.gain).toBeCloseTo(plain.chiSquare - whole.chiSquare, 6);
      for (const [a, each] of found.unknowns.entries()) expect(each).toBeCloseTo(whole.solution[6 + a], 6);
      const n = 3 * body.base.length;
      const baseChiSquare = whole.left
        .slice(0, n)
        .reduce((sum, each, i) => sum + each ** 2 / body.base[Math.floor(i / 3)].variance, 0);
      expect(found.baseChiSquare).toBeCloseTo(baseChiSquare, 6);
      // the frame with the story less the frame without
      scope.forEach((each) => {
        const move = motionAt(found.moves, each.place);
        designOf([each]).forEach((row, k) => {
          const at = (solution: readonly number[]) =>
            row.reduce((sum, value, i) => sum + value * solution[i], 0);
          expect(move[k]).toBeCloseTo(at(plain.solution) - at(whole.solution), 6);
        });
      });
    });

  it('counts the coordinates of the base that the frame takes up', () => {
    const design = new Matrix(designOf(body.base));
    let trace = 0;
    const hat = design.mmul(plain.covariance).mmul(design.transpose());
    for (let i = 0; i < hat.rows; i++) trace += hat.get(i, i) / body.base[Math.floor(i / 3)].variance;
    expect(observations.leverage).toBeCloseTo(trace, 8);
  });

  it('is at most what there is to gain', () => {
    expect(observations.chiSquare).toBeCloseTo(plain.chiSquare, 6);
  });

  /** Subsets that are called for, each asked for by itself. */
  const calledOneByOne = (all: Observations, hasWitnesses: boolean): string[] => {
    const n = all.base.length;
    const called: string[] = [];
    for (let subset = 0; subset < 2 ** n; subset++) {
      const members = all.base.map((_, i) => (subset & (1 << i)) > 0);
      const count = members.filter(Boolean).length;
      const isFewer = count < n / 2 || (count === n / 2 && !members[0]);
      const isAsked = count >= 2 && n - count >= (hasWitnesses ? 2 : 3) && (hasWitnesses || isFewer);
      const gain = isAsked ? gainOf(all, shiftOf({ kind: 'subset' }, members)) : null;
      if (gain !== null && isSignificant(gain, 3, 2 ** n, figuresBy(all)))
        called.push(members.map(Number).join(''));
    }
    return called.sort();
  };
  const asSearched = (all: Observations, hasWitnesses: boolean): string[] =>
    subsetStories(all, figuresBy(all), hasWitnesses).map(({ told }) => told.members.map(Number).join(''));

  it('of every subset, counted up point by point, is that of the subset asked for by itself', () => {
    const three = ['floor-front.L', 'floor-front.R', 'toe-board.L'];
    const moved = bodyWith(
      8,
      shift([7, 0, 0], (id) => three.includes(id)),
      6,
    );
    const full = moved.groups.map(({ points: each }) => ({ points: each.map(() => 1), group: 1 }));
    const alone = observed(moved.base, [], [], { own: 0, shared: 0 })!;
    const joined = observed(moved.base, moved.groups, full, scatter)!;
    expect(calledOneByOne(alone, false).length).toBeGreaterThan(0);
    expect(asSearched(alone, false)).toEqual(calledOneByOne(alone, false));
    expect(asSearched(joined, true)).toEqual(calledOneByOne(joined, true));
  });

  it('of every subset is so wherever the points stand and however little they moved', () => {
    const random = seededRandom(4);
    const within = (size: number) => random.uniform(-size, size);
    let [some, all] = [0, 0];
    for (let body7 = 0; body7 < 40; body7++) {
      const by: Vec3 = [random.normal(3), random.normal(3), random.normal(3)];
      const base7 = Array.from({ length: 7 }, (_, i) => {
        const place: Vec3 = [within(1500), within(700), within(400)];
        const noise: Vec3 = [random.normal(0.3), random.normal(0.3), random.normal(0.3)];
        return point(`p${i}`, place, i < 3 ? add(by, noise) : noise, random.uniform(0.1, 0.5));
      });
      const seen = observed(base7, [], [], { own: 0, shared: 0 })!;
      for (const hasWitnesses of [false, true]) {
        const called = calledOneByOne(seen, hasWitnesses);
        expect(asSearched(seen, hasWitnesses)).toEqual(called);
        some += called.length;
        all += 2 ** 7;
      }
    }
    expect(some).toBeGreaterThan(100);
    expect(some).toBeLessThan(all / 2);
  });

  it('of more than twelve points is sought where the residuals divide them', () => {
    const many = Array.from({ length: 16 }, (_, i): [string, Vec3] => [
      `p${String(i).padStart(2, '0')}`,
      [((i * 7) % 16) * 200, i % 2 === 0 ? 500 : -500, ((i * 5) % 4) * 150],
    ]);
    const isFar = (i: number) => i % 3 === 0;
    const points16 = many.map(([id, place], i) => point(id, place, isFar(i) ? [0, 0, 5] : zero, 0.3));
    const all = observed(points16, [], [], { own: 0, shared: 0 })!;
    const found = subsetStories(all, figuresBy(all), false);
    expect(found.map(({ told }) => told.members)).toContainEqual(many.map((_, i) => isFar(i)));
  });
});

describe('stories that the readings call for', () => {
  const left = (id: string) => isControl(id) && id.endsWith('.L');
  const front = (id: string) => id.startsWith('floor-front') || id.startsWith('toe-board');
  const pair = (id: string) => id.startsWith('toe-board');

  it('are none of a body that stands as one', () => {
    for (const count of [4, 6, 8, 12]) {
      expect(calledFor(question(bodyWith(count, () => zero)))).toEqual([]);
      expect(
        calledFor(
          question(
            bodyWith(count, () => zero),
            false,
          ),
        ),
      ).toEqual([]);
    }
  });

  it('are the same as when every one is asked, from a body that fits perfectly on', () => {
    const counts = { few: 0, called: 0 };
    for (const count of [4, 6, 8])
      for (let run = 0; run < 60; run++) {
        const random = seededRandom(100 * count + run);
        const mm = random.uniform(0, 6);
        const { base } = bodyWith(count, shift([0, mm, mm], left), run);
        const still = base.map((each) => {
          const share = run % 3 === 0 ? 0.2 : 1;
          const [x, y, z] = each.off;
          return { ...each, off: [share * x, share * y, share * z] as const };
        });
        const all = observed(still, [], [], { own: 0, shared: 0 })!;
        const gains = toldOf(still, []).flatMap((told) => {
          const gain = gainOf(all, told);
          return gain === null ? [] : [{ told, gain }];
        });
        const named = gains.filter(({ told, gain }) =>
          isSignificant(gain, told.unknowns, gains.length, figuresBy(all)),
        );
        const isCalled = named.length + subsetStories(all, figuresBy(all), false).length > 0;
        const asked = { base: still, groups: [], weighing: null, scope: () => scope, toldBy: null };
        expect(calledFor(asked).length > 0).toBe(isCalled);
        if (all.chiSquare <= 6.6) counts.few++;
        if (isCalled) counts.called++;
      }
    expect(counts.few).toBeGreaterThan(10);
    expect(counts.called).toBeGreaterThan(10);
  });

  it('name the left half that was pushed in, which every control point alone agrees with', () => {
    const [best] = calledFor(question(bodyWith(8, shift([0, -6, 0], left), 11)));
    expect(best.movedIds.length).toBe(4);
    expect(best.movedIds.every((id) => id.endsWith('.L'))).toBe(true);
  });

  it('name the pair at the end', () => {
    const [best] = calledFor(question(bodyWith(8, shift([0, 0, 6], pair), 12)));
    expect(best.movedIds).toEqual(['toe-board.L', 'toe-board.R']);
  });

  it('say that a floor leans where it was bent like a ramp, sills along with it', () => {
    const bent = (id: string, [x]: Vec3): Vec3 =>
      (isControl(id) || id.startsWith('sill')) && x > 900 ? [0, 0, (x - 900) * 0.012] : zero;
    const stories = calledFor(question(bodyWith(12, bent)));
    expect(stories.some(({ story }) => story.kind === 'lean' && story.to === 'front')).toBe(true);
    expect(stories.flatMap(({ movedIds }) => movedIds)).toContain('toe-board.L');
  });

  it('say that a floor turns where it was twisted', () => {
    const twist = (id: string, [x, y, z]: Vec3): Vec3 => {
      if (!(isControl(id) || id.startsWith('sill')) || x < -200) return zero;
      const angle = ((x + 200) / 1700) * 0.014;
      return [0, -angle * (z - 200), angle * y];
    };
    const stories = calledFor(question(bodyWith(12, twist)));
    expect(stories.some(({ story }) => story.kind === 'turn')).toBe(true);
  });

  it('are not made of rear rails that stand off by themselves: no story rests on one group', () => {
    const off = shift([0, 0, -8], (id) => id.startsWith('rear-rail'));
    for (const count of [6, 8, 12]) expect(calledFor(question(bodyWith(count, off)))).toEqual([]);
  });

  it('without witnesses tell a set and the rest once, and leave three standing', () => {
    const stories = calledFor(question(bodyWith(8, shift([8, 0, 0], front)), false));
    const sets = stories.map(({ story, movedIds }) => `${story.kind} ${movedIds.join(' ')}`);
    expect(new Set(sets).size).toBe(sets.length);
    expect(stories.length).toBeGreaterThan(0);
    for (const { story, movedIds } of stories)
      if (story.kind === 'shift') expect(movedIds.length).toBeLessThanOrEqual(4);
    expect(
      setStories(bodyWith(4, () => zero).base, false).every(
        ({ members }) => members.filter(Boolean).length === 1,
      ),
    ).toBe(true);
  });

  it('do not matter where they place no point of the scope elsewhere', () => {
    const moved = question(bodyWith(8, shift([0, 0, 6], pair), 12));
    expect(
      calledFor({ ...moved, scope: () => scope.map((each) => ({ ...each, half: [99, 99, 99] as const })) }),
    ).toEqual([]);
  });

  it('matter where they place the scope elsewhere than without them, or than what is told', () => {
    const body = bodyWith(8, shift([0, 0, 6], pair), 12);
    const seen = observed(body.base, [], [], { own: 0, shared: 0 })!;
    const found = gainOf(
      seen,
      shiftOf(
        { kind: 'subset' },
        body.base.map(({ id }) => pair(id)),
      ),
    )!;
    const { moves, without } = found;
    const far = Math.max(...scope.flatMap(({ place }) => motionAt(moves, place)).map(Math.abs));
    /** Significant, for points whose tolerance is so many times that, and a frame that is so many times δ from the one without. */
    const matters = (tolerances: number, times: number) => {
      const half: Vec3 = [tolerances * far, tolerances * far, tolerances * far];
      const at = motionAt(moves, without.centroid);
      const toldBy = {
        centroid: without.centroid,
        shift: add(without.shift, [times * at[0], times * at[1], times * at[2]]),
        turn: add(without.turn, [times * moves.turn[0], times * moves.turn[1], times * moves.turn[2]]),
      };
      return isSignificant(found, 3, 1, { points: scope.map((each) => ({ ...each, half })), toldBy });
    };
    expect(matters(3.9, 0)).toBe(true);
    expect(matters(4.1, 0)).toBe(false);
    // what is told stands on the other side
    expect(matters(4.1, 0.1)).toBe(true);
    expect(matters(7.9, 1)).toBe(true);
    expect(matters(8.1, 1)).toBe(false);
    // what is told is what the story says, and so because what stands around was believed less
    expect(matters(3.9, -1)).toBe(true);
    expect(matters(4.1, -1)).toBe(false);
  });

  for (const [name, change] of Object.entries(changes))
    it(`are the same for a car ${name}`, () => {
      const body = bodyWith(8, shift([1, 5, 3], left), 13);
      const other = changed(body, change);
      const at = scope.map((each) => ({ ...each, place: change.at(each.place) }));
      const one = calledFor(question(body));
      const two = calledFor({ ...question(other), scope: () => at });
      expect(one.length).toBeGreaterThan(0);
      expect(two.map(({ movedIds }) => movedIds)).toEqual(one.map(({ movedIds }) => movedIds));
      for (const [i, { gain }] of two.entries()) expect(gain).toBeCloseTo(one[i].gain, 5);
    });

  it('do not depend on the order of points and groups', () => {
    const body = bodyWith(8, shift([1, 5, 3], left), 13);
    const turned = { base: [...body.base].reverse(), groups: [...body.groups].reverse() };
    const sets = (of: Body) =>
      calledFor(question(of)).map(({ movedIds, gain }) => `${[...movedIds].sort()} ${gain.toFixed(6)}`);
    expect(sets(turned)).toEqual(sets(body));
  });
});

describe('named sets', () => {
  it('are each listed once, with the plainest name', () => {
    const sets = namedSets(bodyWith(4, () => zero).base);
    expect(sets.map(({ what }) => ('name' in what ? what.name : what.kind))).toEqual([
      'floor-front.L',
      'floor-front.R',
      'floor-rear.L',
      'floor-rear.R',
      'floor-front',
      'floor-rear',
      'left',
      'right',
      'all',
    ]);
  });

  it('do not cut what stands within 30 mm', () => {
    const near = [0, 29, 100].map((x, i) => point(`p${i}`, [x, 0, 0], zero, 1));
    const cuts = namedSets(near).flatMap(({ what }) => ('ofMm' in what ? [what] : []));
    expect(cuts).toEqual([{ kind: 'behind', ofMm: 100 }]);
  });

  it('shift by hand: two of four points at the corners of a square, one against the other pair', () => {
    // four points with w = 1 in one plane; the front pair lifted by 2: the frame pitches and nothing is left, so that no story is told
    const square: [string, Vec3][] = [
      ['a', [1, 1, 0]],
      ['b', [1, -1, 0]],
      ['c', [-1, 1, 0]],
      ['d', [-1, -1, 0]],
    ];
    const lifted = (ids: string) =>
      square.map(([id, place]) =>
        point(
          id,
          place.map((each) => each * 1000) as unknown as Vec3,
          ids.includes(id) ? [0, 0, 2] : zero,
          1,
        ),
      );
    const told = (ids: string) =>
      shiftOf(
        { kind: 'subset' },
        square.map(([id]) => ids.includes(id)),
      );
    const gain = (moved: string, story: string) =>
      gainOf(observed(lifted(moved), [], [], { own: 0, shared: 0 })!, told(story));
    expect(gain('ab', 'ab')).toBeNull();
    // one corner up by 2: what no plane takes up is ±½ at each corner, χ² = 1, and that the corner moved explains all of it
    expect(gain('a', 'a')!.gain).toBeCloseTo(1, 9);
    expect(gain('a', 'a')!.unknowns[2]).toBeCloseTo(2, 9);
  });
});
