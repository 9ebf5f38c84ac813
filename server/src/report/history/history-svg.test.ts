import { expect, it } from 'vitest';
import { inspectionOf, jobOn, measured, soundBase } from '../../testing/car';
import { pointHistories } from './history';
import { historySvg } from './history-svg';

// the rear control points stand 12 mm high together: either half of the body may be the sound one
const torn = soundBase
  .split('\n')
  .map((row) =>
    /floor-rear|tunnel/.test(row) ? row.replace(/(\d+)\]/, (_, up) => `${Number(up) + 12}]`) : row,
  );
const latch = '      latch: [3050, 0, 780]';

/** The charts of one point: its title in words, and what was drawn for each reading of the first of them, in order. */
function chartOf(timeline: string) {
  const inspection = inspectionOf(jobOn(timeline));
  const history = pointHistories(inspection).find(({ id }) => id === 'latch')!;
  const { markup } = historySvg(history, inspection.stages.length, 'mm', 380, 'latch');
  const [panel] = markup.split('class="fw-course"').slice(1);
  const readings = panel.split('class="fw-whisker"').slice(1);
  return {
    stages: inspection.stages.map(({ provisional }) => provisional),
    title: markup.match(/<title [^>]*>([^<]*)/)![1],
    ringed: readings.map((each) => each.includes('class="fw-provisional"')),
  };
}

it('a dashed ring stands about each reading of a provisional stage, and about no other', () => {
  const { stages, title, ringed } = chartOf(
    `  - measure: as received\n    readings:\n${torn.join('\n')}\n${latch}\n${measured(latch, 'again')}`,
  );
  expect(stages).toEqual([true, false]);
  expect(ringed).toEqual([true, false]);
  expect(title).toMatch(/length: 1 \(provisional\) \S+.*, 2 (?!\()/);
});

it('nothing stands about readings where every base is settled', () => {
  const { stages, title, ringed } = chartOf(`${measured(latch)}\n${measured(latch, 'again')}`);
  expect(stages).toEqual([false, false]);
  expect(ringed).toEqual([false, false]);
  expect(title).not.toContain('provisional');
});
