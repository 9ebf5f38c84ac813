import { expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import { carChassis, jobOn, measured } from '../../testing/car';
import { after, before, offeredAt } from '../testing/asked';
import { refreshEdits } from './refresh-actions';

const title = 'Refresh all summaries';
const rows = '      rail-tip-lower.L: [3012, 448, 210]\n      rail-tip-upper.L: [3012, 445, 352]';
const withSummaries = jobOn(`${measured(rows)}
    summary:
      front-rail.L twist: none      # said at the first look
      body: old
${measured(rows, 'again')}
    summary: { front-rail.L twist: "old, too" }`);
const shop = (job: string) => ({ 'car.chassis.yaml': carChassis, 'w.readings.yaml': job });

it('writes every stale line anew, in both stages, and nothing else', async () => {
  const offered = await offeredAt(shop(before(withSummaries, 'framewright: r')), 'w.readings.yaml');
  const action = offered.get(title);
  expect(action).toMatchObject({ kind: 'source.refreshSummaries' });
  const text = after(withSummaries, action!);
  expect(text).toContain('# said at the first look');
  expect(text).not.toContain('old');
  const analysis = await analysed(shop(text), 'w.readings.yaml');
  expect(analysis.findings.filter(({ rule }) => /stale|^text/.test(rule))).toEqual([]);
  // the lines that were not stale are untouched
  const changed = text.split('\n').filter((line, i) => line !== withSummaries.split('\n')[i]);
  expect(changed).toHaveLength(3);
  expect((await offeredAt(shop(before(text, 'framewright: r')), 'w.readings.yaml')).has(title)).toBe(false);
});

it('is what is done on save, and nothing where nothing is stale', async () => {
  const analysis = await analysed(shop(withSummaries), 'w.readings.yaml');
  if (analysis.kind !== 'readings') throw new Error('a job');
  expect(refreshEdits(analysis)).toHaveLength(3);
  const fresh = await analysed(shop(jobOn(measured(rows))), 'w.readings.yaml');
  if (fresh.kind !== 'readings') throw new Error('a job');
  expect(refreshEdits(fresh)).toEqual([]);
});

it('leaves a line that names nothing, and one whose staleness is ignored, to a person', async () => {
  const job = jobOn(`${measured(rows)}
    summary:
      front-rail.R twist: none
      body: old      # framewright-ignore reading/stale-summary: as told to the customer`);
  expect((await offeredAt(shop(before(job, 'framewright: r')), 'w.readings.yaml')).has(title)).toBe(false);
});
