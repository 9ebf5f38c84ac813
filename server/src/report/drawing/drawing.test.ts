import { describe, expect, it } from 'vitest';
import { jobJson } from '../../commands/formats/inspect-json';
import { analysed } from '../../findings/testing/analysed';
import { carChassis, jobOn, measured } from '../../testing/car';
import type { JobAnalysis } from '../../workspace/workspace';
import { bodyAlone } from './body-alone';
import { type Drawing, type DrawnView, drawingOf } from './drawing';
import type { Box, Label } from './drawing-labels';
import { viewSvg } from './drawing-svg';
import { symbolRadius } from './drawing-symbols';
import { projections } from './drawing-views';

const jobAnalysis = async (job: string, chassis = carChassis): Promise<JobAnalysis> => {
  const analysis = await analysed({ 'car.chassis.yaml': chassis, 'w.readings.yaml': job }, 'w.readings.yaml');
  if (analysis.kind !== 'readings' || analysis.inspection === null) throw new Error('not judged');
  return analysis;
};

const hitFront = jobOn(
  measured(`      rail-root-lower.L: [1760.3, 441.2, 187.9]
      rail-root-upper.L: [1760.1, 444.8, 328.2]
      rail-tip-lower.L: [3002.9, 433.8, 214.0]
      rail-tip-upper.L: [2999.1, 421.5, 357.3]
      rail-tip-lower.R: [3011.7, -450.9, 210.3]
      strut-top.L: [2248.8, 558.1, 830.4]
      latch: [3041.0, -12.5, 781.2]
`),
);

const drawn = async (job: string, width: number, chassis?: string): Promise<Drawing> => {
  const { inspection } = await jobAnalysis(job, chassis);
  return drawingOf(inspection!, inspection!.stages.at(-1)!, { width });
};

/** px of the zero lines of a view. */
function zeroOf({ grid }: DrawnView): readonly [number, number] {
  const zero = (lines: typeof grid.across) => lines.find(({ kind }) => kind !== 'grid')!.at;
  return [zero(grid.across), zero(grid.up)];
}

describe.each([320, 676, 1312.5])('a drawing %s px wide', (width) => {
  it('is to scale, its arrows are the deviations of `inspect` times the stated factor', async () => {
    const analysis = await jobAnalysis(hitFront);
    const [stage] = jobJson(analysis, 'w.readings.yaml').stages;
    const drawing = drawingOf(analysis.inspection!, analysis.inspection!.stages[0], { width });
    expect(drawing.views.map(({ frame }) => frame.view)).toEqual(['plan', 'left', 'right', 'front']);
    let arrows = 0;
    for (const view of drawing.views) {
      const [zeroAcross, zeroUp] = zeroOf(view);
      const { across, up } = projections[view.frame.view];
      const scale = drawing.pxPerMm;
      for (const mark of view.marks) {
        const told = stage.points.find(({ id }) => id === mark.id);
        if (told === undefined) continue;
        expect(Math.abs(mark.at[0] - (zeroAcross + told.reference[across] * scale))).toBeLessThan(0.1);
        expect(Math.abs(mark.at[1] - (zeroUp - told.reference[up] * scale))).toBeLessThan(0.1);
        if (mark.arrow === null || mark.arrow.cut) continue;
        arrows++;
        const [dx, dy] = [mark.arrow.to[0] - mark.arrow.from[0], mark.arrow.to[1] - mark.arrow.from[1]];
        expect(Math.abs(dx - (told.deviation[across] ?? 0) * drawing.factor * scale)).toBeLessThan(0.1);
        expect(Math.abs(dy + (told.deviation[up] ?? 0) * drawing.factor * scale)).toBeLessThan(0.1);
      }
    }
    expect(arrows).toBeGreaterThan(30);
  });

  it('says in the file’s unit what its grid is', async () => {
    const inches = jobOn(
      measured('').replace(/\[.*\]/g, (row) => row.replace(/-?[\d.]+/g, (mm) => String(Number(mm) / 25.4))),
      'units: inch',
    );
    const drawing = await drawn(inches, width);
    const { stepMm } = drawing.views[0].grid;
    expect((stepMm / 25.4) % 1).toBeCloseTo(0, 9);
    expect(drawing.unit).toBe('inch');
  });
});

describe('what is outside, undecided and within', () => {
  it('differ in shape as well as in colour, and each is told in words', async () => {
    const drawing = await drawn(hitFront, 676);
    const states = new Map(drawing.views[0].marks.map(({ id, state }) => [id, state]));
    expect(states.get('rail-tip-upper.L')).toBe('outside');
    expect(states.get('floor-front.L')).toBe('within');
    expect(states.get('rail-tip-upper.R')).toBe('unread');
    const svg = viewSvg(drawing, drawing.views[0], 'a').markup;
    const shapeOf = (id: string) =>
      new RegExp(`data-point="${id}"[\\s\\S]*?fw-symbol" d="([^"]*)"`).exec(svg)![1].replace(/[\d.-]+/g, '');
    expect(new Set(['rail-tip-upper.L', 'floor-front.L', 'strut-top.R'].map(shapeOf)).size).toBeGreaterThan(
      1,
    );
    for (const { text, id } of drawing.views[0].marks) expect(text.startsWith(`${id}: `)).toBe(true);
  });

  it('has all points of a body before anything was read', async () => {
    const analysis = await analysed({ 'car.chassis.yaml': carChassis }, 'car.chassis.yaml');
    if (analysis.kind !== 'chassis') throw new Error('not a chassis');
    const drawing = drawingOf(bodyAlone(analysis.chassis), null, { width: 500 });
    expect(drawing.points).toHaveLength(19);
    expect(drawing.stage).toBeNull();
    for (const { marks } of drawing.views) expect(marks.every(({ arrow }) => arrow === null)).toBe(true);
  });
});

describe('120 crowded points', () => {
  const rows = Array.from({ length: 60 }, (_, i) => {
    const [x, y, z] = [2200 + (i % 15) * 55, 380 + Math.floor(i / 15) * 40, 180 + (i % 7) * 25];
    return { name: `front-structure-station-${i}`, at: [x, y, z] as const };
  });
  const chassis = carChassis.replace(
    'spans:',
    `${rows.map(({ name, at }) => `  ${name}: { both: [${at}], part: front-rail }`).join('\n')}\nspans:`,
  );
  const job = jobOn(
    measured(
      rows
        .flatMap(({ name, at: [x, y, z] }, i) => [
          `      ${name}.L: [${x - 9 - (i % 5)}, ${y - 14 + (i % 3)}, ${z + 1}]`,
          `      ${name}.R: [${x - 7}, ${-y - 9 + (i % 4)}, ${z + 2}]`,
        ])
        .join('\n'),
    ),
  );

  it.each([340, 676, 1200])('at %i px: no name over another or a loud mark, nothing cut', async (width) => {
    const { inspection } = await jobAnalysis(job, chassis);
    const selected = 'front-structure-station-31.L';
    const drawing = drawingOf(inspection!, inspection!.stages[0], { width, selected, named: 12 });
    for (const { frame, marks, labels } of drawing.views) {
      expect(labels.length).toBeGreaterThan(0);
      labels.forEach(({ box }, i) => {
        expect(box.left).toBeGreaterThanOrEqual(0);
        expect(box.top).toBeGreaterThanOrEqual(0);
        expect(box.right).toBeLessThanOrEqual(frame.width);
        expect(box.bottom).toBeLessThanOrEqual(frame.height);
        for (const other of labels.slice(i + 1)) expect(overlap(box, other.box)).toBe(false);
      });
      // the selected point has its name even where it has to cover something
      for (const label of labels.filter(({ id }) => id !== selected))
        for (const { state, at } of marks.filter((mark) => mark.state === 'outside'))
          expect(overlap(label.box, about(at, symbolRadius[state]))).toBe(false);
      for (const { at, arrow } of marks)
        for (const [x, y] of [at, ...(arrow === null ? [] : [arrow.to])]) {
          expect(x).toBeGreaterThanOrEqual(0);
          expect(x).toBeLessThanOrEqual(frame.width);
          expect(y).toBeGreaterThanOrEqual(0);
          expect(y).toBeLessThanOrEqual(frame.height);
        }
    }
    expect(labelled(drawing, 'plan')).toContain(selected);
  });
});

const labelled = ({ views }: Drawing, view: string): string[] =>
  views.find(({ frame }) => frame.view === view)!.labels.map(({ id }: Label) => id);
const about = ([x, y]: readonly [number, number], r: number): Box => ({
  left: x - r,
  right: x + r,
  top: y - r,
  bottom: y + r,
});
const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
