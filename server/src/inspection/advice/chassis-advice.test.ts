import { describe, expect, it } from 'vitest';
import { carChassis, inspectionOf, jobOn, measured } from '../../testing/car';
import { judgedParts, marksFor, mostUncertainty, type PartName, partDoubt } from './chassis-advice';

const of = (text: string) => inspectionOf(jobOn('  - note: waiting'), text).chassis;
const partOf = (text: string, name: string): PartName => {
  const part = judgedParts(of(text)).find((each) => each.name === name);
  if (part === undefined) throw new Error(name);
  return part;
};
/** Four control points at one height, the front ones far back. */
const short = carChassis
  .replaceAll(/(cowl-hole|tunnel-front)(.*), base: true/g, '$1$2')
  .replace('[1200, 420, 95]', '[700, 420, 95]');

describe('what can be decided on a body', () => {
  it('is asked of the parts that have points, both sides as one', () => {
    expect(
      judgedParts(of(carChassis)).map(({ name, parts, points }) => [name, parts.length, points.length]),
    ).toEqual([
      ['floor', 1, 8],
      ['front-rail', 2, 8],
      ['apron', 2, 2],
    ]);
  });

  it('is what a job with all control points read says', () => {
    const job = jobOn(
      measured('      rail-tip-upper.L: [3012, 452, 352]'),
      'instrument: { name: arm, uncertainty: 0.5 }',
    );
    const [stage] = inspectionOf(job).stages;
    const judged = stage.points.find(({ id }) => id === 'rail-tip-upper.L')!;
    const rail = partOf(carChassis, 'front-rail');
    const tip = { ...rail, points: rail.points.filter(({ id }) => id === judged.id) };
    const { worst } = partDoubt(of(carChassis), tip, 0.5);
    expect(worst!.uncertaintyMm).toBeCloseTo(Math.sqrt(judged.alignmentVariance[worst!.axis]!), 9);
    // and of a control point, by the others
    const [front] = stage.points.filter(({ id }) => id === 'floor-front.L');
    const floor = { ...rail, points: [front.point] };
    const { worst: hole } = partDoubt(of(carChassis), floor, 0.5);
    expect(hole!.uncertaintyMm).toBeCloseTo(Math.sqrt(front.alignmentVariance[hole!.axis]!), 2);
  });

  it('ends at an instrument', () => {
    for (const text of [carChassis, short])
      for (const part of judgedParts(of(text))) {
        const most = mostUncertainty(of(text), part)!;
        expect(partDoubt(of(text), part, most).isDecidable).toBe(true);
        expect(partDoubt(of(text), part, most + 0.002).isDecidable).toBe(false);
      }
  });

  it('is not decided where a limit is finer than any alignment', () => {
    const fine = carChassis.replace('352], part: front-rail', '352], part: front-rail, tolerance: 0.05');
    expect(mostUncertainty(of(fine), partOf(fine, 'front-rail'))).toBeNull();
  });

  it('can be decided once what is named is marked', () => {
    const rail = partOf(short, 'front-rail');
    expect(partDoubt(of(short), rail, 0.5).isDecidable).toBe(false);
    const { steps, reached } = marksFor(of(short), rail, 0.5);
    expect(reached).toBe(true);
    const names = new Set(steps.flatMap(({ ids }) => ids.map((id) => id.replace(/\.[LR]$/, ''))));
    const marked = [...names].reduce(
      (text, name) => text.replace(new RegExp(`( {2}${name}: \\{.*) \\}`), '$1, base: true }'),
      short,
    );
    expect(marked).not.toBe(short);
    expect(partDoubt(of(marked), partOf(marked, 'front-rail'), 0.5).isDecidable).toBe(true);
    // nothing of the part itself, nor as far out as it
    expect([...names].some((name) => /^rail|^latch|^strut/.test(name))).toBe(false);
  });

  it('is not asked where the marked points hold no frame', () => {
    expect(judgedParts(of(carChassis.replaceAll(', base: true', '')))).toEqual([]);
    const line = short.replace('[700, 420, 95]', '[-340, 455, 90]');
    expect(judgedParts(of(line))).toEqual([]);
  });
});
