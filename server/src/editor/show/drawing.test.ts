import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { wholeSheet } from '../../report/sheet';
import { carChassis, jobOn, measured } from '../../testing/car';
import { offsetsOf } from '../../text/tree';
import { offsetOf, shopFolder, shopOf } from '../testing/shop';
import { type DrawingAnswer, type DrawingQuestion, drawingAnswer } from './drawing';
import { drawnPlace } from './drawing-text';

const job = jobOn(
  [
    measured('      rail-tip-lower.L: [3002.9, 433.8, 214.0]\n      latch: [3041.0, -12.5, 781.2]'),
    '  - pull: left rail forward\n    part: front-rail.L\n    hook: rail-tip-lower.L\n    direction: [1, 0, 0]',
    measured('      rail-tip-lower.L: [3013.0, 447.0, 210.4]', 'under load'),
    '  - release: all',
    measured('      rail-tip-lower.L: [3008.0, 444.0, 211.4]', 'after first pull'),
  ].join('\n'),
);
const texts = { 'car.chassis.yaml': carChassis, 'w.readings.yaml': job };

const question = (given: Partial<DrawingQuestion> = {}): DrawingQuestion => ({
  section: 'drawing',
  stage: null,
  over: null,
  selected: null,
  cursor: null,
  cursorStage: null,
  width: 640,
  ...given,
});

const wholeText = ({ sheets }: DrawingAnswer): string[] => sheets.map((sheet) => wholeSheet(sheet).markup);

const answerTo = async (
  given: Partial<DrawingQuestion>,
  files: Record<string, string> = texts,
  name = 'w.readings.yaml',
) => {
  const analysis = await shopOf(files).analysis(name);
  return drawingAnswer(analysis, question(given))!;
};

describe('what is shown', () => {
  it('is the newest stage, until one is chosen', async () => {
    const answer = await answerTo({});
    expect(answer.stage).toBe(2);
    expect(answer.stages).toEqual([
      { name: 'as received', underTension: false },
      { name: 'under load', underTension: true },
      { name: 'after first pull', underTension: false },
    ]);
    expect(answer.sheets.map(({ name }) => name)).toEqual([
      'cautions',
      'points',
      'plan',
      'left',
      'right',
      'front',
      'key',
    ]);
    expect((await answerTo({ stage: 1 })).stage).toBe(1);
    // a stage that was taken out of the text meanwhile
    expect((await answerTo({ stage: 17 })).stage).toBe(2);
    expect((await answerTo({ stage: 1, over: 1 })).over).toBeNull();
  });

  it('follows the cursor where it enters another stage, and stays where the slider was put else', async () => {
    const cursor = offsetOf(job, 'after first pull');
    expect(await answerTo({ stage: 0, cursor, cursorStage: null })).toMatchObject({
      stage: 2,
      cursorStage: 2,
    });
    expect(await answerTo({ stage: 0, cursor, cursorStage: 2 })).toMatchObject({ stage: 0, cursorStage: 2 });
    expect(await answerTo({ stage: 0, cursor: 0, cursorStage: 2 })).toMatchObject({
      stage: 0,
      cursorStage: null,
    });
  });

  it('selects the point of the row that the cursor is in, name or figures', async () => {
    for (const piece of ['latch: [', '-12.5'])
      expect(await answerTo({ cursor: offsetOf(job, piece) + 2 })).toMatchObject({
        selected: 'latch',
        stage: 0,
      });
    // before the name and behind the figures, on their line
    for (const cursor of [offsetOf(job, 'latch: [') - 5, offsetOf(job, '781.2]') + 6])
      expect(await answerTo({ cursor })).toMatchObject({ selected: 'latch', stage: 0 });
    expect((await answerTo({ cursor: offsetOf(job, 'hook:') + 8 })).selected).toBe('rail-tip-lower.L');
    // elsewhere the last one stays; one that the body does not have does not
    expect((await answerTo({ cursor: 0, selected: 'latch' })).selected).toBe('latch');
    expect((await answerTo({ cursor: 0, selected: 'no-such' })).selected).toBeNull();
  });

  it('is the body alone for a chassis file, its row under the cursor selected', async () => {
    const cursor = offsetOf(carChassis, '[3012, 452, 352]') + 3;
    const answer = await answerTo({ cursor }, texts, 'car.chassis.yaml');
    expect(answer).toMatchObject({ stage: null, stages: [], selected: 'rail-tip-upper.L', obstacle: null });
    const table = wholeSheet(answer.sheets.find(({ name }) => name === 'points')!).markup;
    expect(table).toContain('reference positions, mm');
    expect(table).toContain('<td>448.0 left</td>');
  });

  it('says in words why nothing is drawn', async () => {
    const answer = await answerTo({}, { 'w.readings.yaml': job });
    expect(answer.obstacle).toMatch(/chassis file of this job cannot be read/);
    expect(answer.sheets).toEqual([]);
  });
});

describe('what is taken over from the last answer', () => {
  it('is what would be made anew, whatever was edited or chosen between', async () => {
    const figure = fc.record({
      row: fc.constantFrom(
        'latch: [',
        'rail-tip-lower.L: [3013',
        'rail-tip-lower.L: [3008',
        'floor-front.L: [',
      ),
      digit: fc.integer({ min: 0, max: 9 }),
    });
    const step = fc.record({
      edit: fc.option(figure),
      stage: fc.option(fc.integer({ min: 0, max: 2 })),
      over: fc.option(fc.integer({ min: 0, max: 2 })),
      selected: fc.option(fc.constantFrom('latch', 'rail-tip-lower.L')),
      section: fc.constantFrom('drawing' as const, 'history' as const),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 2, maxLength: 5 }), async (steps) => {
        const shop = shopOf(texts);
        let text = job;
        let before: DrawingAnswer | null = null;
        for (const { edit, ...given } of steps) {
          if (edit !== null) {
            const at = text.indexOf('.', text.indexOf(edit.row) + edit.row.length) + 1;
            text = `${text.slice(0, at)}${edit.digit}${text.slice(at + 1)}`;
          }
          shop.workspace.setOpen(`${shopFolder}w.readings.yaml`, text);
          const analysis = await shop.analysis('w.readings.yaml');
          const kept: DrawingAnswer = drawingAnswer(analysis, question({ ...given, before }))!;
          const anew = drawingAnswer(analysis, question(given))!;
          expect(wholeText(kept)).toEqual(wholeText(anew));
          before = kept;
        }
      }),
      { numRuns: 25 },
    );
  });
});

describe('the other parts of the view', () => {
  it('have a chart for each point that was judged, those read often first', async () => {
    const answer = await answerTo({ section: 'history' });
    const histories = answer.sheets.find(({ name }) => name === 'histories')!;
    expect([...histories.pieces.keys()]).toHaveLength(10);
    expect([...histories.pieces.keys()].at(-1)).toBe('latch');
    expect(answer.solid).toBeNull();
  });

  it('have in space what `inspect` says, magnified, and part lines from point to point', async () => {
    const analysis = await shopOf(texts).analysis('w.readings.yaml');
    const { solid } = drawingAnswer(analysis, question({ section: 'solid', stage: 0, over: 2 }))!;
    if (solid === null || analysis.kind !== 'readings') throw new Error('nothing in space');
    const judged = analysis.inspection!.stages[0].points.find(({ id }) => id === 'latch')!;
    const point = solid.points.find(({ id }) => id === 'latch')!;
    expect(point.at).toEqual([3050, 0, 780]);
    point.tip!.forEach((mm, k) => {
      expect(mm - point.at[k]).toBeCloseTo(judged.deviation[k]! * solid.factor, 9);
    });
    expect(solid.over).toBe('after first pull');
    const ends = new Set(solid.points.map(({ at }) => at.join()));
    const lines = solid.parts.flatMap((part) => part.lines);
    expect(lines.length).toBeGreaterThan(8);
    for (const end of lines.flat()) expect(ends.has(end.join())).toBe(true);
  });
});

describe('the way to the text', () => {
  it('leads to the reading of the stage, else to the newest, else to the reference', async () => {
    const analysis = await shopOf(texts).analysis('w.readings.yaml');
    const at = (stage: number | null, id: string) => {
      const found = drawnPlace(analysis, stage, id)!;
      return { uri: found.uri, start: offsetsOf(found.place).start };
    };
    const uri = `${shopFolder}w.readings.yaml`;
    const first = job.indexOf('rail-tip-lower.L: [3002.9');
    expect(at(0, 'rail-tip-lower.L')).toEqual({ uri, start: first });
    expect(at(1, 'rail-tip-lower.L')).toEqual({ uri, start: job.indexOf('rail-tip-lower.L: [3013') });
    expect(at(null, 'rail-tip-lower.L')).toEqual({ uri, start: job.indexOf('rail-tip-lower.L: [3008') });
    expect(at(2, 'latch')).toEqual({ uri, start: job.indexOf('latch: [') });
    expect(at(2, 'strut-top.R')).toEqual({
      uri: `${shopFolder}car.chassis.yaml`,
      start: carChassis.indexOf('strut-top'),
    });
    expect(drawnPlace(analysis, 0, 'no-such')).toBeNull();
  });

  it('leads to the distance between two points in the same way, and to the first of them where none was read', async () => {
    const span = '[rail-tip-lower.L, strut-top.R, ';
    const spans = [1399, 1405].map(
      (mm, i) => `  - measure: distances ${i}\n    spans:\n      - ${span}${mm}]`,
    );
    const text = jobOn([measured(''), ...spans].join('\n'));
    const analysis = await shopOf({ ...texts, 'w.readings.yaml': text }).analysis('w.readings.yaml');
    const at = (stage: number | null, to: string) =>
      offsetsOf(drawnPlace(analysis, stage, 'rail-tip-lower.L', to)!.place).start;
    expect(at(1, 'strut-top.R')).toBe(text.indexOf(`${span}1399`));
    expect(at(0, 'strut-top.R')).toBe(text.indexOf(`${span}1405`));
    expect(at(null, 'strut-top.L')).toBe(carChassis.indexOf('rail-tip-lower'));
  });
});

describe('text of a file', () => {
  const hostile = '"<script>alert(1)</script>\\u202e\'&"';
  const odd = {
    'car.chassis.yaml': carChassis.replace('vehicle: Marten five-door hatchback', `vehicle: ${hostile}`),
    'w.readings.yaml': job
      .replaceAll('measure: as received', `measure: ${hostile}`)
      .replaceAll('measure: after first pull', `measure: "${'long '.repeat(2000)}"`)
      .replace('instrument:', `order: ${hostile}\ninstrument:`)
      .replace('      latch:', `      ${hostile}: [1, 2, 3]\n      latch:`),
  };

  it.each(['drawing', 'history', 'solid'] as const)('stays text in the part %s', async (section) => {
    for (const stage of [0, 2]) {
      const answer = await answerTo({ section, stage, over: 2 - stage }, odd);
      const all = wholeText(answer).join('');
      expect(all).toContain('&lt;script&gt;');
      expect(all).not.toContain('<script');
      expect(all).not.toMatch(/\u202e/);
      expect(all).not.toMatch(/<[^>]* on\w+=/);
      expect(all).not.toMatch(/<[^>]* style=/);
      expect(answer.stages[2].name.length).toBeLessThanOrEqual(60);
    }
  });
});
