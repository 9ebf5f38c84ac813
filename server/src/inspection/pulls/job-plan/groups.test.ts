import { describe, expect, it } from 'vitest';
import { add, dot, length, scaled, type Vec3, zero } from '../../../geometry/vector';
import { inspectionOf, jobOn, measured } from '../../../testing/car';
import { martenWith } from '../../../testing/marten';
import { jobPlan, type PullStep } from './job-plan';

/** The left rail and apron in as many points as show a shape. */
const rail: Readonly<Record<string, Vec3>> = {
  'rail-root-lower': [1760, 441, 188],
  'rail-root-upper': [1760, 445, 328],
  'rail-middle-lower': [2381, 444, 199],
  'rail-middle-upper': [2381, 442.6, 338.2],
  'rail-front-lower': [2690, 450, 205],
  'rail-tip-lower': [3012, 448, 210],
  'rail-tip-upper': [3012, 452, 352],
};
const apron: Readonly<Record<string, Vec3>> = {
  'wing-mount-rear': [1850, 671, 842],
  'strut-top': [2250, 561, 830],
  'strut-flange': [2258, 655, 742],
  'wing-mount-front': [2760, 648, 768],
};
const onApron = Object.entries(apron).filter(([name]) => name !== 'strut-top');
const chassis = (joined: string): string =>
  `${martenWith(
    [
      ...(['floor-front', 'floor-rear', 'tunnel-front', 'cowl-hole', 'strut-top'] as const),
      ...(['rail-root-lower', 'rail-root-upper', 'rail-middle-lower', 'rail-middle-upper'] as const),
      ...(['rail-front-lower', 'rail-tip-lower', 'rail-tip-upper'] as const),
    ],
    { 'front-rail': `{ sided: true, straighten: freely, joined: [${joined}] }` },
  )}${onApron.map(([name, at]) => `  ${name}: { both: [${at.join(', ')}], part: apron }\n`).join('')}`;

type Off = (place: Vec3, name: string) => Vec3;
/** Grows evenly past a length, as bent and crushed metal lies: no motion of a rigid body where it grows along the car too. */
const past =
  (fromMm: number, slope: Vec3): Off =>
  ([x]) =>
    scaled(slope, Math.max(0, x - fromMm));

function planned(offRail: Off, offApron: Off, joined = 'apron'): PullStep[] {
  const rows = [
    ...Object.entries(rail).map(([name, at]) => [name, add(at, offRail(at, name))] as const),
    ...Object.entries(apron).map(([name, at]) => [name, add(at, offApron(at, name))] as const),
  ].map(([name, at]) => `      ${name}.L: [${at.map((mm) => mm.toFixed(2)).join(', ')}]`);
  return jobPlan(inspectionOf(jobOn(measured(rows.join('\n'))), chassis(joined))).steps.filter(
    (step): step is PullStep => step.kind === 'pull',
  );
}

/** Of each chain, against the opposite of what is off at its own point. */
const degreesOff = (steps: readonly PullStep[], offRail: Off, offApron: Off): number[] =>
  steps.flatMap(({ hooks }) =>
    hooks.map(({ move: { point }, direction }) => {
      const off = point.part?.startsWith('apron') ? offApron : offRail;
      const home = scaled(off(point.reference, point.name), -1);
      return (Math.acos(Math.min(1, dot(home, direction) / length(home))) * 180) / Math.PI;
    }),
  );

const ids = (steps: readonly PullStep[]) =>
  steps.map(({ plans }) => plans.map(({ part }) => part.id).join(' and '));

describe('parts that are joined', () => {
  it('are no body that moved as one where they bent or buckled, each its own way', () => {
    const bent = past(2290, [-0.03, -0.048, 0.012]);
    const buckled = past(2030, [-0.03, -0.036, 0.006]);
    const steps = planned(bent, buckled);
    expect(ids(steps)).toEqual(['front-rail.L', 'apron.L']);
    expect(Math.max(...degreesOff(steps, bent, buckled))).toBeLessThan(15);
  });

  it('are one body where they moved as one', () => {
    const asOne: Off = ([x]) => (x > 2000 ? [0, -9, 2] : zero);
    expect(ids(planned(asOne, asOne))).toEqual(['front-rail.L and apron.L']);
    expect(ids(planned(asOne, asOne, ''))).toEqual(['front-rail.L', 'apron.L']);
  });
});

describe('a chain', () => {
  it('goes the way of its own point where that differs from the way of its body beyond doubt', () => {
    const off: Off = ([x], name) => (name === 'rail-tip-upper' ? [0, -6, 5] : x > 2000 ? [0, -6, 0] : zero);
    const steps = planned(off, () => zero, '');
    expect(ids(steps)).toEqual(['front-rail.L']);
    expect(Math.max(...degreesOff(steps, off, () => zero))).toBeLessThan(15);
  });

  it('keeps the way of its body where its own point may only be read badly', () => {
    const off: Off = ([x], name) => (name === 'rail-tip-upper' ? [0, -4, 2.6] : x > 2000 ? [0, -4, 0] : zero);
    const steps = planned(off, () => zero, '');
    expect(steps[0].hooks[0].move.id).toBe('rail-tip-upper.L');
    expect(Math.min(...degreesOff(steps, off, () => zero))).toBeGreaterThan(15);
  });
});
