import { describe, expect, it } from 'vitest';
import { covarianceBetween, motionCovariance } from '../../geometry/motion-covariance';
import { rigidFit } from '../../geometry/rigid-motion';
import { inspectionOf, jobOn, measured } from '../../testing/car';

const arm = 'instrument: { uncertainty: 0.3 }';

describe('judged points', () => {
  it('have the uncertainty of the reading, the reference and the alignment together', () => {
    // Σt + [r]× Σθ [r]×ᵀ by hand: Fitzpatrick, West & Maurer 1998; all weights alike, 1/(0.3² + 0.1²)
    const { stages } = inspectionOf(jobOn(measured('      latch: [3050, 0, 780]'), arm));
    const [stage] = stages;
    const { point, uncertainty, alignmentVariance } = stage.points.find((each) => each.id === 'latch')!;
    const members = stage.alignment!.base!.members.map((member) => member.reference);
    const n = members.length;
    const variance = 0.3 ** 2 + 0.1 ** 2;
    const mean = [0, 1, 2].map((k) => members.reduce((sum, m) => sum + m[k], 0) / n);
    const centred = members.map((m) => m.map((x, k) => x - mean[k]));
    const moment = (i: number, j: number) => centred.reduce((sum, m) => sum + m[i] * m[j], 0);
    const r = point.reference.map((x, k) => x - mean[k]);
    // symmetric about the centre plane: width hangs on roll (about x) and yaw (about z) alone, which share Σxz
    const roll = moment(1, 1) + moment(2, 2);
    const yaw = moment(0, 0) + moment(1, 1);
    const both = moment(0, 2);
    const determinant = roll * yaw - both ** 2;
    const levered = (roll * r[0] ** 2 + yaw * r[2] ** 2 - 2 * both * r[0] * r[2]) / determinant;
    const width = variance * (1 / n + levered);
    expect(alignmentVariance[1]).toBeCloseTo(width, 9);
    expect(uncertainty[1]).toBeCloseTo(Math.sqrt(width + 0.3 ** 2), 9);
  });

  it('judge a base point by the others', () => {
    const [stage] = inspectionOf(
      jobOn(measured('').replace('[-350, -455, 90]', '[-349, -455, 91.5]'), arm),
    ).stages;
    const others = stage.alignment!.base!.members.filter((member) => member.id !== 'floor-rear.R');
    expect(others).toHaveLength(7);
    const { rotation, translation } = rigidFit(
      others.map((member) => member.measured),
      others.map((member) => member.reference),
      others.map(() => 1),
    );
    const reading = [-349, -455, 91.5];
    const byOthers = rotation.map(
      (row, k) =>
        row[0] * reading[0] +
        row[1] * reading[1] +
        row[2] * reading[2] +
        translation[k] -
        [-350, -455, 90][k],
    );
    const judged = stage.points.find((each) => each.id === 'floor-rear.R')!;
    expect(judged.inBase).toBe(true);
    byOthers.forEach((d, k) => {
      // the formula is of first order: a millimetre over a metre turns by 1e-3
      expect(judged.deviation[k]).toBeCloseTo(d, 2);
    });
    expect(judged.deviation[0]).toBeCloseTo(1, 2);
    // u² I of the reading, without the scatter of sound cars, and A of the seven others
    const motion = motionCovariance(
      others.map((member) => member.reference),
      others.map(() => 1 / (0.3 ** 2 + 0.1 ** 2)),
    );
    const shared = covarianceBetween(motion, [-350, -455, 90], [-350, -455, 90]);
    judged.uncertainty.forEach((u, k) => {
      expect(u! ** 2).toBeCloseTo(0.3 ** 2 + shared[k][k], 9);
      expect(judged.alignmentVariance[k]!).toBeCloseTo(shared[k][k], 9);
    });
  });

  it('say nothing along an axis that the others leave free', () => {
    const [stage] = inspectionOf(
      jobOn(`  - measure: three
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]`),
    ).stages;
    expect(stage.points.map((each) => each.verdict)).toEqual(['unjudged', 'unjudged', 'unjudged']);
    for (const each of stage.points) {
      expect(each.deviation[2]).toBeNull();
      expect(each.conformity[2]).toBeNull();
    }
  });

  it('count half of what repeats differ by where they contradict each other, and are within no more', () => {
    // 3 √2 · 0.3 = 1.27
    const [stage] = inspectionOf(
      jobOn(
        measured(
          '      latch: [[3050, 0, 780], [3050, 1.6, 780]]\n      strut-top.L: [[2250, 561, 830], [2250, 562.2, 830]]',
        ),
        arm,
      ),
    ).stages;
    const [torn, sound] = ['latch', 'strut-top.L'].map((id) => stage.points.find((each) => each.id === id)!);
    expect(torn.conformity.every((chance) => chance! > 0.95)).toBe(true);
    expect(torn.verdict).toBe('undecided');
    for (const k of [0, 1, 2])
      expect(torn.uncertainty[k]! ** 2 - torn.alignmentVariance[k]!).toBeCloseTo(0.3 ** 2 + 0.8 ** 2, 9);
    expect(sound.verdict).toBe('within');
    expect(sound.uncertainty[1]! ** 2 - sound.alignmentVariance[1]!).toBeCloseTo(0.3 ** 2, 9);
  });

  it('average repeats, and count the part of the uncertainty that this reduces', () => {
    // u² = 0.5² − 0.4² + 0.4²/4 = 0.13
    const rows = '[[3050, 0, 780], [3050, 2, 780], [3050, 0, 780], [3050, 2, 780]]';
    const [stage] = inspectionOf(
      jobOn(measured(`      latch: ${rows}`), 'instrument: { uncertainty: 0.5, repeatability: 0.4 }'),
    ).stages;
    const { deviation, uncertainty, alignmentVariance } = stage.points.find((each) => each.id === 'latch')!;
    expect(deviation[1]).toBeCloseTo(1, 9);
    expect(uncertainty[1]! ** 2 - alignmentVariance[1]!).toBeCloseTo(0.13, 9);
  });
});
