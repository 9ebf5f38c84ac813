import { describe, expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import { carChassis, jobOn } from '../../testing/car';
import { before, chosenAt, difference, offeredAt } from '../testing/asked';

const shop = (job: string) => ({ 'car.chassis.yaml': carChassis, 'w.readings.yaml': job });
const name = 'w.readings.yaml';
const head = 'instrument: { name: arm, uncertainty: 0.8 }\nscope: [front-rail]';
const rear = `  - measure: as received
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]   # by the clip`;
const title = 'Insert rows to read: cowl-hole, both sides';
const rowsAfter = async (job: string, at: string, chosen = title) =>
  difference(job, await chosenAt(shop(before(job, at)), name, chosen));

describe('Insert rows to read', () => {
  it('adds commented rows of the advised points below the last reading', async () => {
    const { added, gone } = await rowsAfter(jobOn(rear, head), 'as received');
    expect(gone).toEqual([]);
    expect(added).toEqual(['      # cowl-hole.L: [ , , ]\n', '      # cowl-hole.R: [ , , ]\n']);
  });

  it('is offered on the scope too, and above another entry', async () => {
    const job = jobOn(`${rear}\n  - note: waiting`, head);
    expect((await rowsAfter(job, 'scope')).added).toHaveLength(2);
  });

  it('is no mistake, and what is typed then makes the base strong enough', async () => {
    const job = jobOn(rear, head);
    const text = await chosenAt(shop(before(job, 'as received')), name, title);
    const rules = async (each: string) => (await analysed(shop(each), name)).findings.map(({ rule }) => rule);
    expect((await rules(text)).filter((rule) => /^(text|name)\//.test(rule))).toEqual([]);
    const typed = text
      .replace(
        '# cowl-hole.L: [ , , ]',
        'cowl-hole.L: [1480, 612, 905]\n      rail-tip-upper.L: [3012, 452, 352]',
      )
      .replace('# cowl-hole.R: [ , , ]', 'cowl-hole.R: [1480, -612, 905]');
    const few = job.replace('   # by the clip', '\n      rail-tip-upper.L: [3012, 452, 352]');
    expect(await rules(few)).toContain('base/weak');
    expect(await rules(typed)).not.toContain('base/weak');
  });

  it('makes the list where a measure has none, and fills one that is empty', async () => {
    const fine = head.replace('0.8', '0.3');
    for (const begun of ['  - measure: as received', '  - measure: as received\n    readings:   # soon']) {
      const job = jobOn(begun, fine);
      const offered = await offeredAt(shop(before(job, 'as received')), name);
      const found = [...offered.keys()].find((each) => each.startsWith('Insert rows to read: '))!;
      const { added } = await rowsAfter(job, 'as received', found);
      const rows = added.filter((line) => /^ {6}# [\w.-]+: +\[ , , \]\n$/.test(line));
      expect(rows.length).toBeGreaterThanOrEqual(6);
      const text = await chosenAt(shop(before(job, 'as received')), name, found);
      expect(
        (await analysed(shop(text), name)).findings.filter(({ rule }) => /^(text|name)\//.test(rule)),
      ).toEqual([]);
      // once they stand there they are not offered again
      const again = await offeredAt(shop(before(text, 'as received')), name);
      expect([...again.keys()].filter((each) => each.startsWith('Insert rows'))).toEqual([]);
    }
  });

  it.each([
    ['nothing is needed', jobOn(rear, head.replace('0.8', '0.1'))],
    ['work was done since', jobOn(`${rear}\n  - replace: front-rail.L`, head)],
    [
      'the rows stand in braces',
      jobOn(`  - measure: as received\n    readings: { floor-front.L: [1200, 420, 95] }`, head),
    ],
  ])('is not offered where %s', async (_, job) => {
    const offered = [...(await offeredAt(shop(before(job, 'as received')), name)).keys()];
    expect(offered.filter((each) => each.startsWith('Insert rows'))).toEqual([]);
  });
});
