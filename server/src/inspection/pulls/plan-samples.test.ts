import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { planReport } from '../../commands/plan';
import { analysed } from '../../findings/testing/analysed';
import type { Vec3 } from '../../geometry/vector';
import { planEntryLines, planText } from '../../wording/job-plan/plan-lines';
import type { Inspection } from '../job/inspect';
import { type PullPlan, partsToWork, pullPlan } from './plan';
import { chainsAgainst } from './pull-checks';

const left = 'front-rail.L';

function planOf(plan: PullPlan): Extract<PullPlan, { kind: 'plan' }> {
  if (plan.kind !== 'plan') throw new Error(JSON.stringify(plan.kind === 'unknown' ? plan.why : plan.kind));
  return plan;
}

describe('the twisted-rail sample', () => {
  const sample = (path: string) =>
    readFileSync(new URL(`../../../../samples/${path}`, import.meta.url), 'utf8');
  const job = sample('jobs/w-1192-twisted-rail.readings.yaml');

  async function inspectionOfSample(text: string): Promise<Inspection> {
    const files = {
      'specs/marten-hatch.chassis.yaml': sample('specs/marten-hatch.chassis.yaml'),
      'jobs/job.readings.yaml': text,
    };
    const analysis = await analysed(files, 'jobs/job.readings.yaml');
    if (analysis.kind !== 'readings' || analysis.inspection === null) throw new Error('no inspection');
    return analysis.inspection;
  }

  it('needs a plan for the left rail alone', async () => {
    expect(partsToWork(await inspectionOfSample(job))).toEqual([left]);
  });

  it('tells a newcomer which way each chain pulls, where it holds and what to measure next', async () => {
    const report = planReport(await inspectionOfSample(job), left) ?? '';
    expect(report).toMatch(/^ {2}hook {5}rail-tip-upper\.L: left \(outboard\); square to the centreline$/m);
    expect(report).toMatch(
      /^ {2}hook {5}rail-tip-lower\.L: only hold it back, right \(inboard\); square to the centreline$/m,
    );
    const text = report.replace(/\s+/g, ' ');
    expect(text).toMatch(
      /a couple against the twist at rail-tip-upper\.L \(4\.\d° ±0\.\d° top leans right\)/,
    );
    expect(text).toMatch(
      /front-rail\.L at length 2\d\d\d mm or farther rearward \(the bend starts at 2\d\d\d to 2\d\d\d mm by “as received”/,
    );
    expect(text).toMatch(/rail-tip-upper\.L \d+\.\d to \d+\.\d mm under load, never farther/);
    expect(text).toMatch(/rail-tip-lower\.L stays at its mark/);
    expect(text).toMatch(/after release all 10 points of front-rail\.L \(rail-front-lower\.L, .*\)/);
    // hook, hold and aim in the words of the step
    const step = planReport(await inspectionOfSample(job)) ?? '';
    for (const label of ['hook', 'both', 'hold', 'aim'])
      expect(report).toContain(
        step.slice(step.indexOf(`\n  ${label} `), step.indexOf('\n', step.indexOf(`\n  ${label} `) + 1)),
      );
    for (const caution of [
      'maker',
      'tether',
      'irbags',
      'high voltage',
      'Heat can weaken metal unseen: none on front-rail.L',
    ])
      expect(report).toContain(caution);
    expect(report.indexOf('CAUTION')).toBeLessThan(report.indexOf('  to go '));
    expect(report).toMatch(/^DANGER {3}A chain that lets go under load kills/m);
    expect(report).not.toMatch(/CAUTION: /);
    // the same block on the page of the whole job, which plans this part alone
    const page = planReport(await inspectionOfSample(job)) ?? '';
    const block = page.slice(page.indexOf('DANGER'), page.indexOf("The maker's procedure decides"));
    expect(block).toContain('Airbags');
    expect(report).toContain(block);
  });

  it('is inserted as an entry that the language reads back, with the chains that were planned', async () => {
    const inspection = await inspectionOfSample(job);
    const lines = planEntryLines(inspection, left);
    const again = await inspectionOfSample(
      `${job.trimEnd()}\n${lines.map((line) => `  ${line}`).join('\n')}\n`,
    );
    expect(again.job.problems).toEqual([]);
    const entry = again.job.timeline.at(-1);
    if (entry?.kind !== 'pull') throw new Error('no pull');
    expect(entry.part?.id).toBe(left);
    expect(entry.chains.map(({ hook }) => hook.id)).toEqual(['rail-tip-upper.L', 'rail-tip-lower.L']);
    const directions = entry.chains.map(({ direction }) => direction as Vec3);
    expect(directions[0][1]).toBeGreaterThan(0.9);
    expect(directions[1][1]).toBeLessThan(-0.9);
    expect(entry.holds).toMatchObject([{ kind: 'part', atMm: 2229 }]);
    expect(entry.plan.map(({ key }) => key)).toEqual(['move', 'hooks', 'hold', 'aim', 'next', 'caution']);
    expect(chainsAgainst(again).filter(({ chain }) => entry.chains.includes(chain))).toEqual([]);
    expect(pullPlan(again, left)).toMatchObject({
      kind: 'unknown',
      why: expect.stringContaining('under tension'),
    });
  });
});

describe('a sill that runs past the base on both sides', () => {
  it('is held on both sides of the damage', async () => {
    const sample = (path: string) =>
      readFileSync(new URL(`../../../../samples/${path}`, import.meta.url), 'utf8');
    const job = sample('jobs/w-1201-side-impact.readings.yaml');
    const received = job.slice(0, job.indexOf('  - ', job.indexOf('- measure: as received') + 4));
    const files = {
      'specs/marten-hatch.chassis.yaml': sample('specs/marten-hatch.chassis.yaml'),
      'jobs/job.readings.yaml': received,
    };
    const analysis = await analysed(files, 'jobs/job.readings.yaml');
    if (analysis.kind !== 'readings' || analysis.inspection === null) throw new Error('no inspection');
    const plan = planOf(pullPlan(analysis.inspection, 'sill.L'));
    expect(plan.hooks.map(({ move }) => move.id)).toEqual(['sill-middle-upper.L']);
    expect(plan.hold).toEqual({
      kind: 'last-straight',
      places: [
        { atMm: -420, towards: -1, straightToMm: -420, seenIn: null },
        { atMm: 1030, towards: 1, straightToMm: 860, seenIn: null },
      ],
      why: 'none',
    });
    expect(planText(plan, analysis.inspection).join(' ').replace(/\s+/g, ' ')).toContain(
      'at length -420 mm or farther rearward and at length 1030 mm or farther forward',
    );
    expect(planEntryLines(analysis.inspection, 'sill.L')).toContain(
      '  hold: [{ part: sill.L, at: -420 }, { part: sill.L, at: 1030 }]',
    );
  });
});
