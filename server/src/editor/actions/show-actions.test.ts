import { describe, expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import { offsetsOf } from '../../text/tree';
import { standingPlaces } from '../show/standing-places';
import { moment, sampleFiles } from '../testing/asked';
import { actionsAt } from './actions-at';
import type { Moment, ShowingCommand } from './code-action';

const finished = 'jobs/w-1174-finished.readings.yaml';
const name = 'jobs/w-1187-as-received.readings.yaml';
const commands: ShowingCommand[] = [
  'framewright.showDrawing',
  'framewright.showPlan',
  'framewright.goToReference',
  'framewright.signOff',
  'framewright.choose',
];
const able: Moment = { ...moment, shows: new Set<string>(commands) };
const job = async () => {
  const analysis = await analysed(sampleFiles(name), name);
  if (analysis.kind !== 'readings' || analysis.inspection === null) throw new Error('a judged job');
  return { ...analysis, inspection: analysis.inspection };
};
const rowOf = (analysis: Awaited<ReturnType<typeof job>>, verdict: string) => {
  const judged = analysis.inspection.stages[0].points.find((each) => each.verdict === verdict);
  if (!judged) throw new Error(`no point ${verdict}`);
  return { id: judged.id, part: judged.point.part, range: offsetsOf(judged.reading.value) };
};

describe('on a deviation', () => {
  it('what helps stands first, with the finding', async () => {
    const analysis = await job();
    const { id, part, range } = rowOf(analysis, 'outside');
    const offered = actionsAt(analysis, range, able);
    expect(offered.slice(0, 3).map(({ title }) => title)).toEqual([
      `Show ${id} in the drawing`,
      `Pull plan for ${part}`,
      `Go to the reference of ${id}`,
    ]);
    expect(offered.slice(0, 3).every(({ mends, kind }) => mends !== null && kind === 'quickfix')).toBe(true);
    expect(offered[1].shows).toEqual({ command: 'framewright.showPlan', with: [part] });
  });

  it('silence stands behind all else', async () => {
    const faulty = 'jobs/w-1211-measuring-mistakes.readings.yaml';
    const analysis = await analysed(sampleFiles(faulty), faulty);
    const orders = analysis.findings.map(({ range }) =>
      actionsAt(analysis, range, able).map(({ title }) =>
        title.startsWith('Silence ') ? 'silence' : 'else',
      ),
    );
    expect(orders.filter((order) => order.includes('silence')).length).toBeGreaterThan(3);
    for (const order of orders)
      expect(order.lastIndexOf('else')).toBeLessThan([...order, 'silence'].indexOf('silence'));
  });

  it('nothing is offered to look at where nothing is off, nor in an editor that cannot show it', async () => {
    const analysis = await job();
    const titles = (verdict: string, at = able) =>
      actionsAt(analysis, rowOf(analysis, verdict).range, at)
        .map(({ title }) => title)
        .filter((title) => /drawing|plan for|reference/.test(title) && !/^Insert/.test(title));
    expect(titles('within')).toEqual([]);
    expect(titles('outside', moment)).toEqual([]);
  });
});

describe('Insert summary…', () => {
  it('is one action, with what there is to choose from and all of it', async () => {
    const analysis = await job();
    const range = offsetsOf(analysis.inspection.stages[0].measure.keyPlace);
    const [action, ...others] = actionsAt(analysis, range, able).filter(({ title }) => /summary/.test(title));
    expect(others).toEqual([]);
    const titles = action.choices?.map(({ title }) => title) ?? [];
    expect(titles).toContain('twist');
    expect(titles.at(-1)).toBe('all of them');
    const each = actionsAt(analysis, range, moment).filter(({ title }) => /^Insert .* summary$/.test(title));
    expect(each.map(({ title }) => title)).toEqual(
      titles.slice(0, -1).map((word) => `Insert ${word} summary`),
    );
  });
});

describe('what stands against the sign-off', () => {
  it('is offered at the order and at the end of the file, with their number', async () => {
    const analysis = await job();
    const places = standingPlaces(analysis);
    const title = /^The \d+ things that stand against the sign-off…$/;
    for (const at of [offsetsOf(analysis.job.orderPlace!).start, analysis.text.length]) {
      const offered = actionsAt(analysis, { start: at, end: at }, able).filter((each) =>
        title.test(each.title),
      );
      expect(offered).toHaveLength(1);
      expect(offered[0].shows?.command).toBe('framewright.signOff');
    }
    expect(places.length).toBeGreaterThan(5);
  });

  it('is a line each, with the way to the row that says it', async () => {
    const analysis = await job();
    const { id } = rowOf(analysis, 'outside');
    const place = standingPlaces(analysis).find(({ words }) => words === `${id}: outside`);
    expect(place && analysis.text.slice(place.range.start, place.range.end)).toBe(id);
    expect(new Set(standingPlaces(analysis).map(({ words }) => words)).size).toBe(
      standingPlaces(analysis).length,
    );
  });

  it('is nothing in a job whose sign-off stands', async () => {
    const analysis = await analysed(sampleFiles(finished), finished);
    if (analysis.kind !== 'readings') throw new Error('a job');
    expect(standingPlaces(analysis)).toEqual([]);
  });
});
