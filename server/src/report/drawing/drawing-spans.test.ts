import { describe, expect, it } from 'vitest';
import { carChassis, inspectionOf, jobOn, measured } from '../../testing/car';
import { shownText } from '../sample.fixture';
import { wholeSheet } from '../sheet';
import { type Drawing, drawingOf } from './drawing';
import { drawingKey } from './drawing-key';
import { spanTable } from './drawing-span-table';

/** Distances between the reference positions, mm: rail tips 896, strut tops 1122, tip to strut top on the other side 1411.8 as listed. */
const job = jobOn(
  `${measured('      latch: [3050, 0, 780]')}
    spans:
      - [rail-tip-lower.L, strut-top.R, 1399.7]
      - [rail-tip-lower.L, rail-tip-lower.R, 896.2]
      - [strut-top.L, strut-top.R, 1124.9]
      - [rail-tip-upper.L, rail-tip-lower.L, 142.1]
      - [rail-tip-upper.R, latch, unreachable]
  - measure: again
    readings: { latch: [3050, 0, 780] }`,
  'instrument: { name: arm, uncertainty: 0.2, span-uncertainty: 0.5 }',
);

const drawn = (stage: number, text = job, chassis = carChassis): Drawing => {
  const inspection = inspectionOf(text, chassis);
  return drawingOf(inspection, inspection.stages[stage], { width: 676, lineOf: () => 7 });
};

const viewOf = ({ views }: Drawing, name: string) => views.find(({ frame }) => frame.view === name)!;
const spansIn = (drawing: Drawing, name: string): string[] =>
  viewOf(drawing, name).spans.map(({ from, to }) => `${from} ${to}`);

describe('a distance', () => {
  it('lies between the marks of its two ends, and stands out where it is not within', () => {
    const drawing = drawn(0);
    for (const { spans, marks } of drawing.views)
      for (const { from, to, ends } of spans)
        expect(ends).toEqual([from, to].map((id) => marks.find((mark) => mark.id === id)!.at));
    expect(viewOf(drawing, 'front').spans.map(({ state }) => state)).toEqual([
      'within',
      'within',
      'undecided',
      'outside',
    ]);
  });

  it('is left out where an end is hidden or both are one place of the sheet', () => {
    const drawing = drawn(0);
    expect(spansIn(drawing, 'left')).toEqual(['rail-tip-upper.L rail-tip-lower.L']);
    expect(spansIn(drawing, 'right')).toEqual([]);
    expect(spansIn(drawing, 'plan')).toHaveLength(3);
  });

  it('bears its figure where it is outside, and is told in words', () => {
    const drawing = drawn(0);
    const [view] = drawing.views;
    expect(view.labels.map(({ id }) => id)).toEqual(['12.1 short']);
    expect(view.spans.at(-1)).toMatchObject({
      line: 7,
      text: 'rail-tip-lower.L to strut-top.R: outside; 1399.7 mm read, reference 1411.8; off by 12.1 short, limit ±3.0, certain to ±1.0',
    });
  });

  it('is measured in the unit of the file', () => {
    const inches = job
      .replace('chassis:', 'units: inch\nchassis:')
      .replace('uncertainty: 0.2, span-uncertainty: 0.5', 'uncertainty: 0.008, span-uncertainty: 0.02')
      .replace(/-?\d+(\.\d+)?(?=[,\]])/g, (mm) => String(Number(mm) / 25.4));
    const [{ text }] = drawn(0, inches).spans;
    expect(text).toContain('off by 0.476 short');
  });
});

describe('beside the drawing', () => {
  it('every distance has a row that leads to its reading; a stage without distances has neither rows nor words for them', () => {
    const drawing = drawn(0);
    const table = wholeSheet(spanTable(drawing)!).markup;
    expect(table).toContain('data-go="rail-tip-lower.L" data-to="strut-top.R"');
    expect(shownText(table)).toContain(
      'rail-tip-lower.L to strut-top.R outside 1399.7 1411.8 12.1 short ±1.0',
    );
    expect(table.match(/<tbody/g)).toHaveLength(4);
    expect(drawingKey(drawing).markup).toContain('point to point');
    const without = drawn(1);
    expect(spanTable(without)).toBeNull();
    expect(drawingKey(without).markup).not.toContain('point to point');
  });
});

it('is drawn for a chassis without a listed distance as well', () => {
  const [first] = drawn(0, job, carChassis.replace(/spans:[\s\S]*/, '')).spans;
  expect(first.text).toContain('rail-tip-lower.L to strut-top.R: outside; 1399.7 mm read, reference 1408.2');
});
