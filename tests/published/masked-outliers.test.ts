import { describe, expect, it } from 'vitest';
import { rigidFit } from '../../server/src/geometry/rigid-motion';
import type { Vec3 } from '../../server/src/geometry/vector';
import { baseFit, type Candidate, trustedBase } from '../../server/src/inspection/alignment/control-points';
import { calledFor } from '../../server/src/inspection/frame/stories';
import { expectClose } from './expect-close';
import { giants, hawkinsBraduKass, stackLoss, stars } from './masked-outliers-data';

/**
 * A small turn takes places into heights as a linear model does: with regressors as places and the response as height, a rigid fit is a regression. So
 * data of regression can be asked of alignments: of the fit in as many dimensions as there are variables, of the search for a base, which is one of
 * space, only where there is one regressor.
 */

/** The response is made small, so that a turn is linear. */
const small = 1e-4;

/** Intercept and slopes of the rigid fit that takes the response away. */
function regressed(rows: readonly (readonly number[])[]): number[] {
  const last = rows[0].length - 1;
  const { rotation, translation } = rigidFit(
    rows.map((row) => [...row.slice(0, last), small * row[last]]),
    rows.map((row) => [...row.slice(0, last), 0]),
    rows.map(() => 1),
  );
  return [-translation[last] / small, ...rotation[last].slice(0, last).map((each) => -each / small)];
}

const without = <T>(rows: readonly T[], numbers: readonly number[]): T[] =>
  rows.filter((_, i) => !numbers.includes(i + 1));

describe('rigid fits in four dimensions, as regressions', () => {
  it('of the stack loss data: R’s lm; and without 1, 3, 4 and 21 (Rousseeuw & Leroy 1987, p. 78)', () => {
    expectClose(regressed(stackLoss), [-39.92, 0.7156, 1.2953, -0.1521], 6e-3);
    expectClose(regressed(without(stackLoss, [1, 3, 4, 21])), [-37.65, 0.798, 0.577, -0.067], 6e-3);
  });

  it('of the data of Hawkins, Bradu & Kass 1984: R’s lm, and the wrong ones stand out (10 mask each other, 11 to 14 are accused)', () => {
    const [intercept, ...slopes] = regressed(hawkinsBraduKass);
    expectClose([intercept, ...slopes], [-0.3875, 0.2392, -0.3345, 0.3833], 2e-4);
    const left = hawkinsBraduKass.map((row) =>
      Math.abs(row[3] - intercept - slopes.reduce((sum, slope, k) => sum + slope * row[k], 0)),
    );
    const worst = left.map((_, i) => i + 1).sort((a, b) => left[b - 1] - left[a - 1]);
    expect(worst.slice(0, 3).sort()).toEqual([11, 12, 13]);
  });
});

/** Temperature along, light up, one millimetre a unit, read on both sides: so nothing but the slope can take it up. */
const alongMm = 10_000;
/** Stars of the main sequence scatter by 0.4 about its line; within three times that a star agrees. */
const scatter = 0.4;
const half: Vec3 = [3 * scatter, 3 * scatter, 3 * scatter];
const limit = [-3 * scatter, 3 * scatter] as const;

const candidates = stars.flatMap(([temperature, light], i): Candidate[] =>
  [1000, -1000].map((y) => {
    const reference: Vec3 = [alongMm * temperature, y, 0];
    return {
      id: `${i + 1}${y > 0 ? '.L' : '.R'}`,
      reference,
      measured: [reference[0], y, light],
      variance: scatter ** 2,
      limits: [limit, limit, limit],
    };
  }),
);

describe('the search for a base, on stars with four giants among them (Rousseeuw & Leroy 1987, p. 27)', () => {
  const slopeOf = (base: ReturnType<typeof baseFit>): number => -base.fit.rotation[2][0] * alongMm;

  it('begins with a fit that they mask themselves in: slope −0.413, and 34 alone of them among the worst ten', () => {
    const all = baseFit(candidates);
    expect(slopeOf(all)).toBeCloseTo(-0.413, 3);
    const left = stars.map((_, i) => Math.abs(all.fit.residuals[2 * i][2]));
    const worst = left.map((_, i) => i + 1).sort((a, b) => left[b - 1] - left[a - 1]);
    expect(giants.filter((giant) => worst.slice(0, 10).includes(giant))).toEqual([34]);
  });

  it('would keep them by itself, as they leave nothing that disagrees', () => {
    expect(trustedBase(candidates, () => []).movedIds).toEqual([]);
  });

  it('are found by the stories: one of those that the readings call for is that just these four stand apart, as far as the others have it', () => {
    const all = baseFit(candidates);
    const base = candidates.map(({ id, reference, variance }, i) => ({
      id,
      place: reference,
      off: all.fit.residuals[i],
      variance,
      half,
      name: id.slice(0, -2),
      side: id.endsWith('L') ? ('L' as const) : ('R' as const),
    }));
    const told = calledFor({ base, groups: [], weighing: null, scope: () => base, toldBy: null }).map(
      (story) => ({
        story,
        numbers: [...new Set(base.flatMap(({ name }, i) => (story.members[i] ? [Number(name)] : [])))],
      }),
    );
    const ofGiants = told.filter(
      ({ numbers, story }) => numbers.join() === giants.join() && story.story.kind === 'shift',
    );
    expect(ofGiants).toHaveLength(1);
    // by a fit of the others alone: 6.79 − 0.41 x becomes −4.06 + 2.05 x, and they stand 2.9 above it
    const line = regressed(without(stars, giants));
    expectClose(line, [-4.06, 2.05], 6e-3);
    const above = giants.map((giant) => {
      const [temperature, light] = stars[giant - 1];
      return light - line[0] - line[1] * temperature;
    });
    expectClose(
      ofGiants[0].story.unknowns[2],
      above.reduce((sum, each) => sum + each, 0) / giants.length,
      0.05,
    );
  });
});
