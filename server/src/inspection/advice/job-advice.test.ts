import { describe, expect, it } from 'vitest';
import { carChassis, inspectionOf, jobOn, measured } from '../../testing/car';
import { isWeak } from '../job/weak';
import type { MeasuringAdvice } from './answer';
import { answered } from './answer';
import { adviceAfresh, adviceForParts, adviceInStage, advised, stageToExtend } from './job-advice';
import { jobQuestion } from './job-question';

const arm = 'instrument: { name: arm, uncertainty: 0.8 }';
const rail = `${arm}\nscope: [front-rail]`;
const rear = `  - measure: as received
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]
      rail-tip-lower.L: [3012, 448, 210]`;
const rows: Record<string, string> = {
  'cowl-hole.L': '[1480, 612, 905]',
  'cowl-hole.R': '[1480, -612, 905]',
  'tunnel-front.L': '[905, 188, 242]',
  'tunnel-front.R': '[905, -188, 242]',
};

function given(advice: MeasuringAdvice | string): MeasuringAdvice {
  if (typeof advice === 'string') throw new Error(advice);
  return advice;
}
const idsOf = ({ steps }: MeasuringAdvice): string[] => steps.flatMap(({ ids }) => ids);
const inFirst = (job: string, chassis = carChassis) => {
  const inspection = inspectionOf(job, chassis);
  return adviceInStage(inspection.stages[0], inspection);
};

describe('advice to a job', () => {
  it('names what is not read yet, and what each brings', () => {
    const advice = given(inFirst(jobOn(rear, rail)));
    expect(advice.steps[0].ids).toEqual(['cowl-hole.L', 'cowl-hole.R']);
    expect(advice.now?.point.id).toMatch(/^rail-tip/);
    expect(advice.reached).toBe(true);
    const left = [advice.now, ...advice.steps.map((step) => step.left)].map((each) => each!.uncertaintyMm);
    for (let i = 1; i < left.length; i++) expect(left[i]).toBeLessThan(left[i - 1]);
  });

  it('is kept: once that is read, nothing of the scope is weak', () => {
    const weakOf = (job: string) =>
      inspectionOf(job).stages[0].points.filter(
        (judged) => judged.point.part?.startsWith('front-rail') && isWeak(judged),
      );
    expect(weakOf(jobOn(rear, rail)).length).toBeGreaterThan(0);
    const more = idsOf(given(inFirst(jobOn(rear, rail)))).map((id) => `      ${id}: ${rows[id]}`);
    expect(weakOf(jobOn([rear, ...more].join('\n'), rail))).toEqual([]);
  });

  it('says of what is read already what the alignment itself says', () => {
    const inspection = inspectionOf(jobOn(rear, rail));
    const { now } = given(adviceInStage(inspection.stages[0], inspection));
    const tip = inspection.stages[0].points.find(({ id }) => id === 'rail-tip-lower.L')!;
    const asked = jobQuestion(inspection, inspection.stages[0], {
      uncertaintyMm: null,
      witnesses: false,
      judged: null,
    });
    if (typeof asked === 'string') throw new Error(asked);
    const onlyTip = {
      ...asked,
      points: [tip.point],
      question: {
        ...asked.question,
        scope: asked.question.scope.filter((_, i) => asked.points[i] === tip.point),
      },
    };
    const said = answered(onlyTip).now!;
    expect(said.uncertaintyMm).toBeCloseTo(Math.sqrt(tip.alignmentVariance[said.axis]!), 6);
    expect(now!.uncertaintyMm).toBeGreaterThanOrEqual(said.uncertaintyMm);
  });

  it('asks for nothing where the base carries the scope', () => {
    const advice = given(
      inFirst(
        jobOn(
          measured('      rail-tip-lower.L: [3012, 448, 210]'),
          'scope: [front-rail]\ninstrument: { name: arm, uncertainty: 0.2 }',
        ),
      ),
    );
    expect(advice).toMatchObject({ steps: [], reached: true, coarse: null });
  });

  it('begins before anything is read with what makes a frame that checks itself', () => {
    const inspection = inspectionOf(
      jobOn('  - measure: as received', 'scope: [front-rail]\ninstrument: { name: arm, uncertainty: 0.2 }'),
    );
    const advice = given(adviceInStage(inspection.stages[0], inspection));
    expect(advice.now).toBeNull();
    expect(advice.reached).toBe(true);
    expect(advice.steps.some(({ checks }) => checks)).toBe(true);
    expect(advice.steps.length).toBeGreaterThanOrEqual(3);
    expect(idsOf(advice)).toEqual(idsOf(given(adviceAfresh(inspection))));
  });

  it('takes a better instrument’s word, and says where one is too coarse for the limit', () => {
    const inspection = inspectionOf(jobOn('  - measure: as received', rail));
    const fine = given(advised(inspection, null, 0.2));
    expect(fine.uncertaintyMm).toBe(0.2);
    expect(fine.coarse).toBeNull();
    const coarse = given(advised(inspection, null, 1.7));
    // 1.96 × 1.7 is more than 3 already
    expect(coarse.coarse).not.toBeNull();
  });

  it('says that it cannot be reached', () => {
    const listed = `${rail}\nbase: [floor-front.L, floor-front.R, floor-rear.L, floor-rear.R]`;
    expect(given(inFirst(jobOn(rear, listed)))).toMatchObject({
      reached: false,
      steps: [],
      confinedTo: 'ids',
    });
  });

  it('asks for no point of the scope, none under a hook, none at the scope’s own end, none that moved', () => {
    const ahead = carChassis.replace('part: apron }', 'part: apron, base: true }');
    expect(idsOf(given(inFirst(jobOn(rear, rail), ahead)))).not.toContain('strut-top.L');
    const hooked = `${rear}\n  - pull: rail\n    part: front-rail.L\n    chains: [{ hook: cowl-hole.L, direction: [1, 0, 0] }]`;
    expect(idsOf(given(inFirst(jobOn(hooked, rail))))).not.toContain('cowl-hole.L');
    const moved = measured('      latch: [3050, 0, 780]').replace(
      'cowl-hole.L: [1480, 612, 905]',
      'cowl-hole.L: [1480, 627, 905]',
    );
    const after = inspectionOf(
      jobOn(
        `${moved}\n  - pull: rail\n    part: front-rail.L\n  - release: all`,
        'scope: [front-rail]\ninstrument: { name: arm, uncertainty: 0.2 }',
      ),
    );
    expect(after.stages[0].alignment?.movedIds).toEqual(['cowl-hole.L']);
    expect(stageToExtend(after)).toBeNull();
    expect(idsOf(given(adviceAfresh(after)))).not.toContain('cowl-hole.L');
  });

  it('stays within a listed base and a stated zone', () => {
    const listed = `${rail}\nbase: [floor-front.L, floor-front.R, floor-rear.L, floor-rear.R, tunnel-front.L]`;
    expect(idsOf(given(inFirst(jobOn(rear, listed))))).toEqual(expect.not.arrayContaining(['cowl-hole.L']));
    expect(idsOf(given(inFirst(jobOn(rear, `${rail}\nbase: { between: [-400, 1300] }`))))).not.toContain(
      'cowl-hole.L',
    );
  });

  it('counts witnesses only where it is told to', () => {
    const sill = carChassis
      .replace(
        '  rail-root-lower',
        '  sill: { both: [300, 700, 150], part: sill }\n  roof: { both: [0, 560, 1390], part: roof }\n  rail-root-lower',
      )
      .replace('parts:\n', 'parts:\n  sill: {}\n  roof: {}\n');
    const inspection = inspectionOf(jobOn(rear, rail), sill);
    const offered = (witnesses: boolean) => {
      const asked = jobQuestion(inspection, inspection.stages[0], {
        uncertaintyMm: null,
        witnesses,
        judged: null,
      });
      return typeof asked === 'string'
        ? []
        : asked.question.items.filter(({ isControl }) => !isControl).map(({ name }) => name);
    };
    expect(offered(false)).toEqual([]);
    expect(offered(true)).toEqual(['sill', 'roof']);
  });

  it('names the least that is read again to decide one part after a pull', () => {
    const timeline = `${measured('      rail-tip-lower.L: [3012, 462, 210]')}\n  - pull: rail\n    part: front-rail.L\n  - release: all`;
    const inspection = inspectionOf(
      jobOn(timeline, 'scope: [front-rail, apron]\ninstrument: { name: arm, uncertainty: 0.2 }'),
    );
    const least = given(adviceForParts(inspection, ['front-rail.L']));
    expect(least.reached).toBe(true);
    expect(least.steps.length).toBeGreaterThan(1);
    expect(least.steps.length).toBeLessThan(4);
    expect([...least.after.keys()].every((id) => id.startsWith('rail-') && id.endsWith('.L'))).toBe(true);
    expect(idsOf(least).some((id) => id.startsWith('rail-'))).toBe(false);
  });

  it('has none where nothing can be understood or judged', () => {
    expect(inFirst(jobOn(rear, `${arm}\nscope: [`))).toBe('broken');
    expect(adviceAfresh(inspectionOf(jobOn('  - note: waiting', arm)))).toBe('no-scope');
    const tram = `  - measure: as received\n    spans: [[rail-tip-lower.L, strut-top.R, 1411.8]]`;
    expect(inFirst(jobOn(tram, arm))).toBe('distances');
    const mirrored = measured('').replace(/\[(-?\d+), (-?\d+), /g, (_, x, y) => `[${x}, ${-y}, `);
    expect(inFirst(jobOn(mirrored, rail))).toBe('unusable');
  });

  it('does not count on an alignment that was taken over: rows here would make one of their own', () => {
    const inspection = inspectionOf(
      jobOn(
        `${rear}\n  - measure: the other rail\n    readings: { rail-tip-lower.R: [3012, -448, 210] }`,
        rail,
      ),
    );
    expect(inspection.stages[1].alignment?.inherited).toBe('as received');
    const advice = given(adviceInStage(inspection.stages[1], inspection));
    expect(advice.now).toBeNull();
    expect(advice.steps.length).toBeGreaterThan(1);
  });

  it('extends no measure under load', () => {
    const loaded = `  - pull: rail\n    part: front-rail.L\n${rear.replace('as received', 'under load')}`;
    expect(stageToExtend(inspectionOf(jobOn(loaded, rail)))).toBeNull();
  });

  it('extends the newest measure until something is done to the car', () => {
    const inspection = inspectionOf(jobOn(rear, rail));
    expect(stageToExtend(inspection)).toBe(inspection.stages[0]);
    expect(stageToExtend(inspectionOf(jobOn(`${rear}\n  - note: waiting`, rail)))).not.toBeNull();
    expect(stageToExtend(inspectionOf(jobOn(`${rear}\n  - replace: front-rail.L`, rail)))).toBeNull();
  });
});
