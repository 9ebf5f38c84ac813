import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { motionAt, motionCovarianceAt } from '../../geometry/small-motion';
import type { Vec3 } from '../../geometry/vector';
import { zero } from '../../geometry/vector';
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
import { type FramePoint, scatterElsewhere } from './frame-points';
import { joinedFit, judgedControl, judgedWitness } from './joined';
import { shareOf, weighed } from './witnesses';

const scatter = scatterElsewhere(1);
const lowRear = (id: string): Vec3 => (id.startsWith('rear-rail') ? [0, 0, -6] : zero);
const weighingOf = ({ base, groups }: Body) => weighed(base, 1, groups, scatter)!;

describe('weights of witnesses', () => {
  it('are one where everything stands where it belongs', () => {
    const weighing = weighingOf(bodyWith(6, () => zero));
    for (const {
      points,
      group,
      plain: { squares },
    } of weighing.groups) {
      expect(Math.min(...points, group)).toBeCloseTo(1, 12);
      expect(squares).toBeCloseTo(0, 12);
    }
    expect(weighing.raised).toBe(false);
    expect(weighing.scatter).toEqual({ own: 0.5, shared: 0.5 });
  });

  it('are what the biweight gives, by hand, in the first round', () => {
    // a base so exact and so wide that its own share is lost: S = 0.09 + ½ + ½ for a point, ½ + 0.59/4 for four
    const base = [
      point('a', [4000, 3000, 2000], zero, 0),
      point('b', [-4000, -3000, 2000], zero, 0),
      point('c', [4000, -3000, -2000], zero, 0),
      point('d', [-4000, 3000, -2000], zero, 0),
    ];
    const off: Vec3 = [0, 0, 2];
    const of = (name: string, x: number) => ({
      name,
      points: [0, 1, 2, 3].map((i) => point(`${name}${i}`, [x, i, 0], off, 0.09)),
    });
    const { byBase } = weighed(base, 1, [of('rear', -500), of('sill', 300)], scatter)!;
    const biweight = (squares: number) => (1 - squares / 4.685 ** 2) ** 2;
    expect(byBase[0].points[0]).toBeCloseTo(biweight(4 / 1.09), 3);
    // all four weigh alike: Ω with 1/Σ(ω/(u² + s²)) = 0.59/4ω
    const each = biweight(4 / 1.09);
    expect(byBase[0].group).toBeCloseTo(biweight(4 / (0.5 + 0.59 / (4 * each))), 3);
    expect(byBase[0].weighted.off[2]).toBeCloseTo(2, 9);
  });

  it('fall to nothing for what stands clearly off, and not for the rest', () => {
    const { groups } = weighingOf(bodyWith(6, lowRear));
    expect(shareOf(groups[0])).toBeLessThan(0.1);
    expect(groups[0].plain.squares).toBeGreaterThan(16.27);
    expect(groups[0].plain.off[2]).toBeCloseTo(-6, 1);
    expect(Math.min(shareOf(groups[1]), shareOf(groups[2]))).toBeGreaterThan(0.9);
    // so far off that no point is believed any more
    const far = weighingOf(bodyWith(6, (id) => (id.startsWith('rear-rail') ? [0, 0, -60] : zero))).groups[0];
    expect([...far.points, far.group]).toEqual([0, 0, 0, 0, 0]);
    expect(far.plain.off[2]).toBeCloseTo(-60, 0);
  });

  it('raise the scatter where witnesses vary by more than is said, and never lower it', () => {
    const wild = bodyWith(12, () => zero, 2);
    const quiet = weighed(wild.base, 1, wild.groups, scatterElsewhere(6))!;
    expect(quiet.scatter).toEqual(scatterElsewhere(6));
    const { scatter: raised, raised: isRaised } = weighed(wild.base, 1, wild.groups, scatterElsewhere(0.1))!;
    expect(isRaised).toBe(true);
    expect(raised.own).toBeGreaterThan(0.02);
    expect(raised.own).toBe(raised.shared);
  });

  it('do not depend on the order of points and groups', () => {
    const body = bodyWith(6, lowRear, 4);
    const expected = new Map(weighingOf(body).groups.map((each, i) => [body.groups[i].name, each]));
    fc.assert(
      fc.property(fc.shuffledSubarray(body.groups, { minLength: 3 }), fc.boolean(), (groups, turned) => {
        const base = turned ? [...body.base].reverse() : body.base;
        weighingOf({ base, groups }).groups.forEach((each, i) => {
          expect(each.group).toBeCloseTo(expected.get(groups[i].name)!.group, 9);
          expect(each.weighted.squares).toBeCloseTo(expected.get(groups[i].name)!.weighted.squares, 6);
        });
      }),
      { numRuns: 10 },
    );
  });

  for (const [name, change] of Object.entries(changes))
    it(`are the same for a car ${name}`, () => {
      const body = bodyWith(6, lowRear, 7);
      const [one, other] = [weighingOf(body), weighingOf(changed(body, change))];
      one.groups.forEach((each, i) => {
        expect(other.groups[i].group).toBeCloseTo(each.group, 9);
        expect(other.groups[i].weighted.squares).toBeCloseTo(each.weighted.squares, 6);
      });
    });

  it('are the same in another unit', () => {
    const body = bodyWith(6, lowRear, 9);
    const k = 1 / 25.4;
    const smaller = (one: FramePoint): FramePoint => ({
      ...one,
      place: one.place.map((each) => each * k) as unknown as Vec3,
      off: one.off.map((each) => each * k) as unknown as Vec3,
      variance: one.variance * k * k,
    });
    const groups = body.groups.map((group) => ({ ...group, points: group.points.map(smaller) }));
    const inches = weighed(body.base.map(smaller), 1, groups, scatterElsewhere(k))!;
    const shares = (groups: typeof inches.groups) => groups.map(shareOf);
    const found = shares(inches.groups);
    for (const [i, share] of shares(weighingOf(body).groups).entries())
      expect(found[i]).toBeCloseTo(share, 6);
  });
});

/** diag(u² + s²) + ½g² within a side + ½g² within the group, over Ω. */
function nestedCovariance(body: Body, whole: readonly number[]): number[][] {
  const points = [...body.base, ...body.groups.flatMap((group) => group.points)];
  const groupOf = new Map(body.groups.flatMap((group, g) => group.points.map((each) => [each, g] as const)));
  return points.map((a) =>
    points.map((b) => {
      const [g, h] = [groupOf.get(a), groupOf.get(b)];
      if (g === undefined || g !== h) return a === b ? a.variance : 0;
      const own = a === b ? a.variance + scatter.own : 0;
      return (own + scatter.shared / 2 + (a.side === b.side ? scatter.shared / 2 : 0)) / whole[g];
    }),
  );
}

describe('the joined fit', () => {
  const body = bodyWith(6, () => zero, 3);
  const weights = [1, 0.6, 0.2];
  const weighing = {
    scatter,
    groups: body.groups.map((group, g) => ({
      ...weighingOf(body).groups[g],
      points: group.points.map(() => 1),
      group: weights[g],
    })),
  };
  const fit = joinedFit(body.base, 1, body.groups, weighing)!;
  const points = [...body.base, ...body.groups.flatMap((group) => group.points)];
  const information = inverse(onEachAxis(nestedCovariance(body, weights)));
  const whole = wholeFit(designOf(points), offsOf(points), information);

  it('is that of least squares with the whole covariance of nested errors', () => {
    for (const each of [...points, ...scope]) {
      const [x, y, z] = designOf([each]).map((row) =>
        row.reduce((sum, value, i) => sum + value * whole.solution[i], 0),
      );
      const found = motionAt(fit.motion, each.place);
      expect(found[0]).toBeCloseTo(x, 8);
      expect(found[1]).toBeCloseTo(y, 8);
      expect(found[2]).toBeCloseTo(z, 8);
    }
  });

  it('knows its own uncertainty', () => {
    for (const each of scope) {
      const rows = designOf([each]);
      const found = motionCovarianceAt(fit.motion, each.place);
      for (let i = 0; i < 3; i++)
        for (let j = 0; j < 3; j++) {
          let expected = 0;
          for (let a = 0; a < 6; a++)
            for (let b = 0; b < 6; b++) expected += rows[i][a] * whole.covariance.get(a, b) * rows[j][b];
          expect(found[i][j]).toBeCloseTo(expected, 8);
        }
    }
  });

  it('judges a control point by all the others, and a witness by all but its group', () => {
    const without = (left: readonly FramePoint[]) => {
      const kept = points.flatMap((each, i) => (left.includes(each) ? [] : [3 * i, 3 * i + 1, 3 * i + 2]));
      const own = inverse(onEachAxis(nestedCovariance(body, weights)).selection(kept, kept));
      const rest = points.filter((each) => !left.includes(each));
      return wholeFit(designOf(rest), offsOf(rest), own);
    };
    const [control, witness] = [body.base[2], body.groups[1].points[0]];
    for (const [judged, others, each] of [
      [judgedControl(fit, control)!, without([control]), control],
      [judgedWitness(fit, 1, witness)!, without(body.groups[1].points), witness],
    ] as const)
      designOf([each]).forEach((row, k) => {
        const at = row.reduce((sum, value, i) => sum + value * others.solution[i], 0);
        expect(judged.off[k]).toBeCloseTo(each.off[k] - at, 7);
      });
  });
});
