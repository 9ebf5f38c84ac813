import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../../tests/published/seeded-random';
import { covarianceBetween, motionCovariance } from '../../geometry/motion-covariance';
import { type Vec3, zero } from '../../geometry/vector';
import { point } from '../../testing/frame-points';
import { type FramePoint, scatterElsewhere } from '../frame/frame-points';
import { outermost } from './bounds';
import type { AdviceItem } from './items';
import { type AdviceQuestion, measuringAdvice, worstShare } from './measuring-advice';

const pair = (name: string, [x, y, z]: Vec3, variance: number): FramePoint[] => [
  point(`${name}.L`, [x, y, z], zero, variance),
  point(`${name}.R`, [x, -y, z], zero, variance),
];
const control = (name: string, place: Vec3): AdviceItem => ({
  name,
  isControl: true,
  partName: null,
  points: pair(name, place, 0.5),
});
const witness = (name: string, place: Vec3): AdviceItem => ({
  name,
  isControl: false,
  partName: name,
  points: pair(name, place, 0.25),
});
const tip = pair('rail-tip', [2960, 448, 270], 0.25);

const items = [
  control('floor-front', [1200, 420, 95]),
  control('floor-rear', [-350, 455, 90]),
  control('toe-board', [1520, 360, 310]),
  control('rear-frame', [-720, 500, 265]),
  control('cowl', [1480, 612, 905]),
  witness('rear-rail', [-1900, 490, 330]),
  witness('pillar', [350, 720, 1040]),
  witness('sill', [1050, 700, 150]),
];
const question: AdviceQuestion = {
  base: [...items[0].points, ...items[1].points],
  witnesses: [],
  factor: 1,
  items: items.slice(2),
  scope: tip,
  scatter: scatterElsewhere(1),
};

/** The fewest items of all that decide the scope, by trying all sets. */
function exhaustive(asked: AdviceQuestion, most: number): number | null {
  for (let size = 0; size <= most; size++)
    for (let set = 0; set < 2 ** asked.items.length; set++) {
      const chosen = asked.items.filter((_, i) => (set & (1 << i)) > 0);
      if (chosen.length === size && worstShare(asked, chosen) <= 0.95) return size;
    }
  return null;
}

describe('measuring advice', () => {
  it('says how well the frame is known now: the alignment’s own covariance', () => {
    const motion = motionCovariance(
      question.base.map(({ place }) => place),
      question.base.map(({ variance }) => 1 / variance),
    );
    const worst = Math.max(
      ...tip.flatMap(({ place }) =>
        [0, 1, 2].map((k) => Math.sqrt(covarianceBetween(motion, place, place)[k][k])),
      ),
    );
    expect(measuringAdvice(question).now).toBeCloseTo(worst, 9);
  });

  it('ends where everything can be decided, with each step better than the one before', () => {
    const { now, steps, reached } = measuringAdvice(question);
    expect(now).toBeGreaterThan(0.95);
    expect(reached).toBe(true);
    const worsts = [now, ...steps.map(({ worst }) => worst)];
    for (let i = 1; i < worsts.length; i++) expect(worsts[i]).toBeLessThan(worsts[i - 1]);
    expect(steps.length).toBe(exhaustive(question, 4));
  });

  it('asks for nothing where all can be decided', () => {
    const near = [point('near', [400, 0, 150], zero, 0.25)];
    expect(measuringAdvice({ ...question, scope: near })).toMatchObject({ steps: [], reached: true });
  });

  it('says that it cannot be reached, and what still helps', () => {
    const strict = tip.map((each) => ({ ...each, half: [0.2, 0.2, 0.2] as const }));
    const { steps, reached, now } = measuringAdvice({ ...question, scope: strict });
    expect(reached).toBe(false);
    expect(steps.length).toBeGreaterThan(0);
    expect(steps[steps.length - 1].worst).toBeLessThan(now);
  });

  it('begins before anything is read, with what makes a frame', () => {
    const { now, steps, reached } = measuringAdvice({ ...question, base: [], items });
    expect(now).toBe(Number.POSITIVE_INFINITY);
    expect(reached).toBe(true);
    expect(steps.filter(({ item }) => item.isControl).length).toBeGreaterThanOrEqual(2);
  });

  it('takes two witness groups together where one alone counts for nothing', () => {
    const only = { ...question, items: items.slice(5) };
    const { steps } = measuringAdvice(only);
    expect(steps.length).toBeGreaterThanOrEqual(2);
    expect(worstShare(only, [items[5]])).toBe(worstShare(only, []));
  });

  it('does not ask for what the rest makes superfluous', () => {
    const { steps } = measuringAdvice(question);
    const chosen = steps.map(({ item }) => item);
    for (const item of chosen)
      expect(
        worstShare(
          question,
          chosen.filter((each) => each !== item),
        ),
      ).toBeGreaterThan(0.95);
  });

  it('judges a point of the base by the others', () => {
    const [first, ...others] = question.base;
    const scope = [{ place: first.place, half: first.half }];
    const alone = worstShare({ ...question, base: others, scope }, []);
    const judged = worstShare({ ...question, scope: [{ ...scope[0], inBase: first.variance }] }, []);
    expect(judged).toBeCloseTo(alone, 9);
    expect(judged).toBeGreaterThan(worstShare({ ...question, scope }, []));
  });

  it('needs as few as the best of all sets, up to three pairs, on fifty bodies of any shape', () => {
    const random = seededRandom(20_260_401);
    let compared = 0;
    for (let body = 0; compared < 50; body++) {
      expect(body).toBeLessThan(500);
      const at = (): Vec3 => [random.uniform(-1500, 1700), random.uniform(100, 700), random.uniform(50, 900)];
      const drawn = Array.from({ length: 9 }, (_, i) =>
        i < 6 ? control(`control${i}`, at()) : witness(`witness${i}`, at()),
      );
      const asked = {
        ...question,
        base: [...drawn[0].points, ...drawn[1].points],
        items: drawn.slice(2),
        scope: pair('tip', [random.uniform(1800, 3000), 450, 300], 0.25),
      };
      const fewest = exhaustive(asked, 3);
      if (fewest === null) continue;
      compared++;
      const { steps, reached } = measuringAdvice(asked);
      expect(reached).toBe(true);
      expect(steps.length).toBe(fewest);
    }
  });

  it('ends after so many frames, however much there is to read', () => {
    const random = seededRandom(7);
    const anywhere = (): Vec3 => [
      random.uniform(-1500, 1700),
      random.uniform(100, 700),
      random.uniform(50, 900),
    ];
    const many = Array.from({ length: 600 }, (_, i) => control(`control${i}`, anywhere()));
    const wide = Array.from({ length: 900 }, () => ({
      ...tip[0],
      place: [random.uniform(1800, 3000), random.uniform(-700, 700), random.uniform(100, 900)] as const,
      half: [0.3, 0.3, 0.3] as const,
    }));
    const asked = { ...question, base: [], items: many, scope: wide };
    const { evaluated, steps, reached } = measuringAdvice(asked);
    expect(evaluated).toBeLessThan(8200);
    expect(steps.length).toBeGreaterThan(2);
    expect(reached).toBe(false);
    // what is said is of all points, whatever was searched
    const last = steps[steps.length - 1].worst;
    expect(last).toBeCloseTo(
      worstShare(
        asked,
        steps.map(({ item }) => item),
      ),
      9,
    );
  });

  it('finds the worst of a large scope among its outermost points', () => {
    const random = seededRandom(11);
    const wide = Array.from({ length: 500 }, () => ({
      ...tip[0],
      place: [random.uniform(1800, 3000), random.uniform(-700, 700), random.uniform(100, 900)] as const,
    }));
    const found = outermost(wide);
    expect(found.length).toBeLessThan(60);
    const whole = worstShare({ ...question, scope: wide }, []);
    expect(worstShare({ ...question, scope: found }, [])).toBeGreaterThan(0.97 * whole);
  });
});
