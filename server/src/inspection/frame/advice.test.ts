import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../../tests/published/seeded-random';
import { covarianceBetween, motionCovariance } from '../../geometry/motion-covariance';
import { type Vec3, zero } from '../../geometry/vector';
import { type AdviceItem, type AdviceQuestion, measuringAdvice, worstShare } from './advice';
import { point } from './frame.fixture';
import { type FramePoint, scatterElsewhere } from './frame-points';

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

  it('needs as few as the best of all sets, up to three pairs, on bodies of any shape', () => {
    const random = seededRandom(20_260_401);
    let [compared, equal] = [0, 0];
    for (let body = 0; body < 50; body++) {
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
      if (reached && steps.length === fewest) equal++;
    }
    expect(compared).toBeGreaterThan(20);
    expect(equal).toBe(compared);
  });
});
