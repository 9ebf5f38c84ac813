import { describe, expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import { carChassis, jobOn, measured } from '../../testing/car';
import { after, before, chosenAt, moment, offeredAt, sampleFiles, sampleJobs } from '../testing/asked';
import { actionsAt } from './actions-at';

const shop = (job: string) => ({ 'car.chassis.yaml': carChassis, 'w.readings.yaml': job });
const row = '      rail-tip-uper.L: [3012, 452, 352]   # typed in a hurry';

describe('did you mean', () => {
  it('is offered on the finding, mends it and touches nothing else', async () => {
    const job = jobOn(measured(row));
    const files = shop(before(job, 'rail-tip-uper'));
    const [[title, action]] = await offeredAt(files, 'w.readings.yaml');
    expect(title).toContain('rail-tip-upper.L');
    expect(action).toMatchObject({
      kind: 'quickfix',
      preferred: true,
      mends: expect.objectContaining({ rule: 'name/unknown-point' }),
    });
    expect(after(job, action)).toBe(job.replace('rail-tip-uper.L', 'rail-tip-upper.L'));
  });

  it('is not offered elsewhere, nor where the finding is ignored', async () => {
    const job = jobOn(measured(row));
    const elsewhere = await offeredAt(shop(before(job, 'floor-rear.L')), 'w.readings.yaml');
    expect([...elsewhere.keys()].filter((title) => title.includes('rail-tip-upper'))).toEqual([]);
    const ignored = jobOn(
      measured(`${row.split('#')[0]}# framewright-ignore name/unknown-point: not on the sheet`),
    );
    const offered = await offeredAt(shop(before(ignored, 'rail-tip-uper')), 'w.readings.yaml');
    expect([...offered.values()].filter(({ kind }) => kind === 'quickfix')).toEqual([]);
  });

  it('works in a chassis file too', async () => {
    const chassis = carChassis.replace('part: apron }', 'part: aprn }');
    const title = [
      ...(await offeredAt({ 'car.chassis.yaml': before(chassis, 'aprn') }, 'car.chassis.yaml')).keys(),
    ];
    expect(title).toHaveLength(1);
    expect(
      await chosenAt({ 'car.chassis.yaml': before(chassis, 'aprn') }, 'car.chassis.yaml', title[0]),
    ).toBe(carChassis);
  });

  it('works in a settings file', async () => {
    const text = 'framewright: settings/1\ndecison-rule: guarded\n';
    const files = { '.framewright.yaml': before(text, 'decison') };
    const [title] = (await offeredAt(files, '.framewright.yaml')).keys();
    expect(await chosenAt(files, '.framewright.yaml', title)).toBe(text.replace('decison', 'decision'));
  });
});

/** Enough to tell a finding from the others of its rule, wherever edits above have moved it. */
const told = ({ rule, message }: { rule: string; message: string }): string => `${rule}: ${message}`;

describe('every fix of every sample, chosen where its finding stands', () => {
  it.each(sampleJobs)('%s', async (path) => {
    const files = sampleFiles(path);
    const analysis = await analysed(files, path);
    const fixed = analysis.findings.filter(({ replacements }) => replacements.length > 0);
    const withheld: string[] = [];
    for (const finding of fixed) {
      const offered = actionsAt(analysis, finding.range, moment).filter(
        ({ mends, ask }) => mends === finding && ask === undefined,
      );
      const titles = offered.map(({ title }) => title);
      withheld.push(
        ...finding.replacements.map(({ title }) => title).filter((each) => !titles.includes(each)),
      );
      for (const action of offered) {
        const text = after(files[path], action);
        const { findings } = await analysed({ ...files, [path]: text }, path);
        const still = findings.filter(({ range }) => range.start === finding.range.start).map(told);
        expect(still, action.title).not.toContain(told(finding));
      }
    }
    // the measure has a row of that name already
    expect(withheld).toEqual(path.includes('typing-mistakes') ? ['Change to strut-top.R'] : []);
    expect(fixed.length > 0).toBe(/typing-mistakes|measuring-mistakes/.test(path));
  });
});

it('all did-you-mean fixes of the typing mistakes together leave only what a person must type', async () => {
  const path = 'jobs/w-1210-typing-mistakes.readings.yaml';
  const files = { ...sampleFiles(path) };
  for (let round = 0; round < 40; round++) {
    const analysis = await analysed(files, path);
    const finding = analysis.findings.find(({ replacements }) => replacements.length === 1);
    if (!finding) break;
    const [action] = actionsAt(analysis, finding.range, moment).filter(
      ({ mends, ask }) => mends === finding && ask === undefined,
    );
    files[path] = after(files[path], action);
  }
  const { findings } = await analysed(files, path);
  expect(findings.filter(({ replacements }) => replacements.length === 1)).toEqual([]);
  const left = findings.filter(({ rule }) => /^(text|name)\//.test(rule)).map(({ rule }) => rule);
  expect(left).not.toContain('text/unknown-key');
  expect(left).not.toContain('name/unknown-part');
  // an unclosed bracket, a name typed twice and a missing number are for a person to settle
  expect(left).toContain('text/syntax');
  expect(left).toContain('text/duplicate-key');
});
