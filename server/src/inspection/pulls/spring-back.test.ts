import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../../tests/published/seeded-random';
import type { Vec3 } from '../../geometry/vector';
import {
  chassisText,
  controlIds,
  inspectionOf,
  jobText,
  measureText,
  railIds,
  type SetUp,
  straight,
} from '../../testing/pulled-rail';
import { springBackSummary } from '../../wording/spring-back-words';
import type { HookRecovery } from './hook-recovery';
import { observedPulls } from './observed-pulls';
import { aimFor, leftASet, springBack } from './spring-back';

const ids = [...controlIds, ...railIds('L')];
const pullText =
  '  - pull: out\n    part: front-rail.L\n    chains: [{ hook: tip-lower.L, direction: [0, 1, 0] }]\n';
const relieve = '  - relieve: [front-rail.L]\n';
const release = '  - release: all\n';
const turned: SetUp = { yaw: 2.1, at: [4000, -300, 120] };

/** The whole rail moved sideways, + left; nothing else. */
const sideways =
  (mm: number) =>
  (id: string): Vec3 => [0, railIds('L').includes(id) ? mm : 0, 0];

/** Reads, pulls from −20 to `peak`, reads, releases, reads. */
const onePull = (peak: number, after: number, relieved = true, setUp = turned): string[] => [
  measureText('as received', ids, sideways(-20)),
  pullText,
  measureText('under load', railIds('L'), sideways(peak)),
  ...(relieved ? [relieve] : []),
  release,
  measureText('after', ids, sideways(after), setUp),
];

const rowsOf = (timeline: string[], head?: string) =>
  springBack(inspectionOf(chassisText(), jobText(timeline, head)));

describe('spring-back of one pull', () => {
  it('is what came back from the peak, whether or not the instrument was moved', () => {
    const [row] = rowsOf(onePull(5, -1));
    expect(row).toMatchObject({ part: 'front-rail.L', relieved: true, pulls: 1 });
    expect(row.recovery).toBeCloseTo(6, 3);
    expect(row.ratio).toBeCloseTo(6 / 25, 4);
    expect(row.recoveryRange?.[0]).toBe(row.recovery);
  });

  it('has the uncertainty of a quotient of two figures that share a reading (JCGM 100:2008, 5.2.2)', () => {
    const inspection = inspectionOf(chassisText(), jobText(onePull(5, -5)));
    const [{ movementMm: m, recoveryMm: r, covariance: c }] = observedPulls(inspection);
    expect(c[0][1]).toBeGreaterThan(0);
    const variance = (r / m ** 2) ** 2 * c[0][0] - 2 * (r / m ** 3) * c[0][1] + c[1][1] / m ** 2;
    expect(springBack(inspection)[0].ratioUncertainty).toBeCloseTo(Math.sqrt(variance), 9);
  });

  it('lists exactly what `inspect` prints', () => {
    expect(Object.keys(rowsOf(onePull(5, -1))[0])).toEqual([
      'part',
      'relieved',
      'pulls',
      'ratio',
      'ratioUncertainty',
      'recovery',
      'recoveryRange',
    ]);
  });

  it('counts only moves of ten times the uncertainty of a reading', () => {
    const small = [
      measureText('as received', ids, sideways(-20)),
      pullText,
      measureText('under load', railIds('L'), sideways(-17.2)),
      release,
      measureText('after', ids, sideways(-19)),
    ];
    expect(rowsOf(small)[0]).toEqual({
      part: 'front-rail.L',
      relieved: false,
      pulls: 0,
      ratio: null,
      ratioUncertainty: null,
      recovery: null,
      recoveryRange: null,
    });
    expect(rowsOf(small, 'instrument: { name: arm, uncertainty: 0.25 }')[0].pulls).toBe(1);
  });

  it('takes the last reading before the release for the peak', () => {
    const [before, pull, , , , after] = onePull(5, -1);
    const twice = [
      before,
      pull,
      measureText('half', railIds('L'), sideways(-8)),
      measureText('peak', railIds('L'), sideways(5)),
      release,
      after,
    ];
    expect(rowsOf(twice)[0].recovery).toBeCloseTo(6, 3);
  });

  it('does not take a point for a peak that the last reading left out', () => {
    const [before, pull, , , , after] = onePull(5, -1);
    const twice = [
      before,
      pull,
      measureText('half', railIds('L'), sideways(-8)),
      measureText('peak', ['tip-lower.L'], sideways(5)),
      release,
      after,
    ];
    expect(rowsOf(twice)[0].recovery).toBeCloseTo(6, 3);
  });

  it('says nothing where another pull came between the readings', () => {
    const [before, pull, peak, , , after] = onePull(5, -1);
    const mixed = [before, pull, peak, release, pullText, release, after];
    expect(rowsOf(mixed)[0]).toMatchObject({ pulls: 0, recovery: null });
  });

  it('says nothing where the part was replaced between the readings', () => {
    const [before, pull, peak, , , after] = onePull(5, -1);
    expect(rowsOf([before, pull, peak, release, '  - replace: front-rail.L\n', after])[0].pulls).toBe(0);
  });

  it('says nothing where the three stages share fewer than three control points', () => {
    const few = [...controlIds.slice(0, 4), ...railIds('L')];
    const others = [...controlIds.slice(2), ...railIds('L')];
    const [, pull, peak] = onePull(5, -1);
    const job = [
      measureText('as received', few, sideways(-20)),
      pull,
      peak,
      release,
      measureText('after', others, sideways(-1)),
    ];
    expect(rowsOf(job)[0].pulls).toBe(0);
  });

  it('aligns on what the bases share: a control point that moved between does not count as spring-back', () => {
    const moved =
      (mm: number) =>
      (id: string): Vec3 =>
        id === 'cowl-hole.R' ? [0, 0, 12] : sideways(mm)(id);
    const [before, pull, peak] = onePull(5, -1);
    expect(
      rowsOf([before, pull, peak, release, measureText('after', ids, moved(-1), turned)])[0].recovery,
    ).toBeCloseTo(6, 3);
  });

  it('says nothing where the instrument was moved under load and the file does not say so', () => {
    const [before, pull, , relieved, released, after] = onePull(5, -1);
    expect(
      rowsOf([
        before,
        pull,
        measureText('under load', railIds('L'), sideways(5), turned),
        relieved,
        released,
        after,
      ])[0].pulls,
    ).toBe(0);
  });

  it('says nothing while a stage is not read under load, or the pull is not released', () => {
    const [before, pull, peak, , , after] = onePull(5, -1);
    expect(rowsOf([before, pull, release, after])[0].pulls).toBe(0);
    expect(rowsOf([before, pull, peak])).toEqual([]);
  });

  it('is held back while the text is broken', () => {
    expect(rowsOf([...onePull(5, -1), '  - measure: [\n'])).toEqual([]);
  });

  it('keeps relieved and unrelieved apart, and pools the pulls of each', () => {
    const [before, pull, peak, ...rest] = onePull(5, -1);
    const second = [
      pullText,
      measureText('second', railIds('L'), sideways(17), turned),
      relieve,
      release,
      measureText('end', ids, sideways(12), turned),
    ];
    const third = [
      pullText,
      measureText('third', railIds('L'), sideways(30), turned),
      release,
      measureText('last', ids, sideways(22), turned),
    ];
    const rows = rowsOf([before, pull, peak, ...rest, ...second, ...third]);
    expect(rows.map(({ relieved, pulls }) => [relieved, pulls])).toEqual([
      [true, 2],
      [false, 1],
    ]);
    expect(rows[0].recovery).toBeCloseTo(5.5, 3);
    expect(rows[0].recoveryRange?.map((mm) => mm.toFixed(2))).toEqual(['5.00', '6.00']);
    expect(rows[0].ratio).toBeCloseTo((25 * 6 + 18 * 5) / (25 ** 2 + 18 ** 2), 4);
    expect(rows[1].recovery).toBeCloseTo(8, 3);
  });

  it('is one line of text', () => {
    const inspection = inspectionOf(chassisText(), jobText(onePull(5, -1)));
    expect(springBackSummary(inspection, 'front-rail.L')).toMatch(
      /^relieved 6\.0 mm back on release, 24 % ±\d+ % of the move, 1 pull$/,
    );
    expect(springBackSummary(inspection, 'front-rail.R')).toBeNull();
  });
});

describe('spring-back of simulated pulls', () => {
  /** The recovery as the metal does it, by the size of the move. */
  const truths = { 'a constant amount': () => 6, 'a share of the move': (move: number) => 0.25 * move };

  for (const [name, recovery] of Object.entries(truths))
    it(`${name} is covered by its 95 % interval about as often as it says`, () => {
      const random = seededRandom(20_260_301);
      const runs = 160;
      let seen = 0;
      let covered = 0;
      let ratiosCovered = 0;
      for (let run = 0; run < runs; run++) {
        const peak = random.uniform(0, 20);
        const truth = recovery(peak + 20);
        const build = new Map(
          ids.map((id) => [id, [0, 1, 2].map(() => random.normal(0.3)) as unknown as Vec3]),
        );
        const at =
          (mm: number) =>
          (id: string): Vec3 => {
            const [x, y, z] = build.get(id)!;
            return [x, y + sideways(mm)(id)[1], z];
          };
        const noise = () => random.normal(0.3);
        const inspection = inspectionOf(
          chassisText(),
          jobText([
            measureText('as received', ids, at(-20), straight, noise),
            pullText,
            measureText('under load', railIds('L'), at(peak), straight, noise),
            release,
            measureText('after', ids, at(peak - truth), turned, noise),
          ]),
        );
        const [pull] = observedPulls(inspection);
        // one sound base in a hundred is taken for two bodies
        if (pull === undefined) continue;
        seen++;
        if (Math.abs(pull.recoveryMm - truth) <= 1.96 * Math.sqrt(pull.covariance[1][1])) covered++;
        const [{ ratio, ratioUncertainty }] = springBack(inspection);
        if (Math.abs(ratio! - truth / (peak + 20)) <= 1.96 * ratioUncertainty!) ratiosCovered++;
      }
      expect(seen).toBeGreaterThanOrEqual(0.97 * runs);
      // 160 runs at 95 %: 0.905 to 0.99 is over two standard deviations of a binomial
      expect(covered / seen).toBeGreaterThan(0.905);
      expect(covered / seen).toBeLessThan(0.99);
      expect(ratiosCovered / seen).toBeGreaterThan(0.905);
      expect(ratiosCovered / seen).toBeLessThan(0.99);
    });
});

describe('the move to aim at', () => {
  const pull = (movementMm: number, recoveryMm: number, relieved = true): HookRecovery => ({
    relieved,
    movementMm,
    recoveryMm,
    recoveryBetweenMm: [recoveryMm, recoveryMm],
    covariance: [
      [0.1, 0.05],
      [0.05, 0.1],
    ],
    carriedFrom: null,
  });
  const aimAfter = (seen: HookRecovery[], needed = 10, elsewhere = 0) =>
    aimFor({ seen, elsewhere }, true, needed);

  it('is the needed move and the recovery seen, as a range', () => {
    expect(aimAfter([pull(25, 6), pull(18, 5), pull(20, 9, false)])).toEqual({
      kind: 'aim',
      fromMm: 15,
      toMm: 16,
      recoveryMm: [5, 6],
      relieved: true,
      pulls: 2,
      carriedFrom: [],
    });
  });

  it('spans what is doubtful about a recovery that was carried to the hook', () => {
    const carried: HookRecovery = { ...pull(25, 6), recoveryBetweenMm: [5.5, 6.3], carriedFrom: 'front.L' };
    expect(aimAfter([carried, pull(20, 6)])).toMatchObject({
      fromMm: 15.5,
      toMm: 16.3,
      carriedFrom: ['front.L'],
    });
  });

  it('is not said without pulls of that kind, from pulls that left no set, or from a share past 0.9', () => {
    expect(aimAfter([])).toEqual({ kind: 'none', why: 'not-seen' });
    expect(aimAfter([], 10, 1)).toEqual({ kind: 'none', why: 'elsewhere' });
    expect(aimAfter([pull(20, 6, false)])).toEqual({ kind: 'none', why: 'not-seen' });
    expect(aimAfter([pull(20, 19.9)])).toEqual({ kind: 'none', why: 'no-set' });
    expect(aimAfter([pull(20, 18.5)])).toEqual({ kind: 'none', why: 'unlikely' });
    expect(aimAfter([pull(20, -3)])).toEqual({ kind: 'none', why: 'unlikely' });
  });

  it('is never beyond the needed move and the largest recovery seen', () => {
    const seen = fc.record({
      movement: fc.double({ min: 3, max: 60, noNaN: true }),
      recovery: fc.double({ min: -5, max: 60, noNaN: true }),
    });
    fc.assert(
      fc.property(
        fc.array(seen, { maxLength: 5 }),
        fc.double({ min: 0.1, max: 60, noNaN: true }),
        (list, needed) => {
          const pulls = list.map(({ movement, recovery }) => pull(movement, recovery));
          const aim = aimAfter(pulls, needed);
          if (aim.kind === 'none') return;
          const most = Math.max(...pulls.filter(leftASet).map((each) => each.recoveryMm), 0);
          expect(aim.toMm).toBeLessThanOrEqual(needed + most + 1e-9);
          expect(aim.fromMm).toBeGreaterThanOrEqual(needed);
          expect(aim.fromMm).toBeLessThanOrEqual(aim.toMm);
        },
      ),
    );
  });
});
