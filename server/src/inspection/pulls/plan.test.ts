import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { planReport } from '../../commands/plan';
import { analysed } from '../../findings/fixture';
import { dot, length, type Vec3 } from '../../geometry/vector';
import { jobFrom } from '../../model/read/job-from-text';
import { parseText } from '../../text/yaml/parse';
import { planEntryLines, planText } from '../../wording/plan-lines';
import type { Inspection } from '../job/inspect';
import {
  chassisText,
  controlIds,
  type Displacement,
  inspectionOf,
  jobText,
  measureText,
  railIds,
  referenceOf,
} from '../testing/pulled-rail';
import { type PullPlan, partsToWork, pullPlan } from './plan';
import { chainsAgainst } from './pull-checks';

const left = 'front-rail.L';
const ids = [...controlIds, ...railIds('L')];

/** Bent at 2200: beyond it the rail leans off by a share of the way. */
const bent =
  (sideways: number, up = 0): Displacement =>
  (id) => {
    const beyond = Math.max(0, referenceOf(id)[0] - 2200);
    return railIds('L').includes(id) ? [0, sideways * beyond, up * beyond] : [0, 0, 0];
  };

/** Turned about the middle of its section, more towards the tip: + the top leans right. */
const twisted =
  (mmAtTip: number): Displacement =>
  (id) => {
    const [x, , z] = referenceOf(id);
    return railIds('L').includes(id)
      ? [0, (-mmAtTip * Math.max(0, x - 2200) * (z - 260)) / (800 * 70), 0]
      : [0, 0, 0];
  };

const jobOf = (displacement: Displacement, ...more: string[]) =>
  jobText([measureText('as received', ids, displacement), ...more]);
const planned = (displacement: Displacement, facts?: string, ...more: string[]): PullPlan =>
  pullPlan(inspectionOf(chassisText(facts), jobOf(displacement, ...more)), left);

function planOf(plan: PullPlan): Extract<PullPlan, { kind: 'plan' }> {
  if (plan.kind !== 'plan') throw new Error(JSON.stringify(plan.kind === 'unknown' ? plan.why : plan.kind));
  return plan;
}

describe('a pull plan', () => {
  it('hooks at the point with the largest needed move and pulls it home', () => {
    const plan = planOf(planned(bent(-0.02, 0.01)));
    expect(plan.hooks.map(({ move }) => move.id)).toEqual(['tip-lower.L']);
    const [hook] = plan.hooks;
    expect(length(hook.direction)).toBeCloseTo(1, 12);
    expect(hook.move.moveMm[1]).toBeCloseTo(16, 1);
    expect(hook.move.moveMm[2]).toBeCloseTo(-8, 1);
    expect(hook.writtenDirection).toEqual([0, 0.89, -0.45]);
    expect(plan.twist).toBeNull();
  });

  it('holds on straight metal before the bend, two uncertainties and a hinge back', () => {
    const { hold } = planOf(planned(bent(-0.02)));
    if (hold.kind !== 'before-bend') throw new Error(hold.kind);
    expect(hold.bendMm).toBeCloseTo(2200, -1);
    expect(hold.atMm).toBeLessThanOrEqual(hold.bendBetweenMm[0]);
    expect(hold.atMm).toBeGreaterThan(hold.bendBetweenMm[0] - 1);
    expect(hold.bendBetweenMm[0]).toBeLessThan(hold.bendMm - 38);
  });

  it('without a declared bend holds at the last station that is straight', () => {
    // only the tip station is off: with one station beyond it place and slope of a bend cannot be told apart
    const plan = planOf(planned((id) => (id.startsWith('tip') && id.endsWith('.L') ? [0, 9, 0] : [0, 0, 0])));
    expect(plan.hold).toMatchObject({ kind: 'last-straight', placesMm: [2690] });
  });

  it('on a part that is off everywhere holds on the body behind it', () => {
    const plan = planOf(planned((id) => (railIds('L').includes(id) ? [0, 9, 0] : [0, 0, 0])));
    expect(plan.hold).toEqual({ kind: 'not-on-part', bendMm: null });
    expect(
      planEntryLines(
        inspectionOf(
          chassisText(),
          jobOf((id) => (railIds('L').includes(id) ? [0, 9, 0] : [0, 0, 0])),
        ),
        left,
      ).join('\n'),
    ).not.toContain('  hold: [');
  });

  it('turns a twisted part back with two hooks at different heights, pulled opposite ways', () => {
    for (const mm of [8, -8]) {
      const { hooks, twist } = planOf(planned(twisted(mm)));
      expect(hooks.map(({ move }) => move.id).sort()).toEqual(['tip-lower.L', 'tip-upper.L']);
      expect(dot(hooks[0].direction, hooks[1].direction)).toBeCloseTo(-1, 2);
      expect(Math.sign(twist?.angleRad ?? 0)).toBe(Math.sign(mm));
      const upper = hooks.find(({ move }) => move.id === 'tip-upper.L')!;
      expect(Math.sign(upper.direction[1])).toBe(Math.sign(mm));
      expect(hooks.every(({ holdsBack }) => !holdsBack)).toBe(true);
    }
  });

  it('only holds a level back that is where it belongs', () => {
    const { hooks } = planOf(
      planned((id) => (id.includes('upper') && id.endsWith('.L') ? bent(-0.015)(id) : [0, 0, 0])),
    );
    expect(hooks.map(({ move, holdsBack }) => [move.id, holdsBack])).toEqual([
      ['tip-upper.L', false],
      ['tip-lower.L', true],
    ]);
    expect(hooks[1].aim).toBeNull();
    expect(dot(hooks[0].direction, hooks[1].direction)).toBeCloseTo(-1, 2);
  });

  it('never pulls a point away from where it still has to go: both levels off the same way need one hook first', () => {
    const both: Displacement = (id) => {
      const [, y] = bent(-0.02)(id);
      return [0, y + twisted(4)(id)[1], 0];
    };
    const { hooks, twist } = planOf(planned(both));
    expect(hooks.map(({ move }) => move.id)).toEqual(['tip-upper.L']);
    expect(twist).not.toBeNull();
  });

  it('aims no farther than the needed move and what came back before', () => {
    const pull = `  - pull: out\n    part: ${left}\n    chains: [{ hook: tip-lower.L, direction: [0, 1, 0] }]\n`;
    const more = [
      pull,
      measureText('under load', railIds('L'), bent(-0.005)),
      '  - relieve: all\n  - release: all\n',
      measureText('after', ids, bent(-0.012)),
    ];
    const inspection = inspectionOf(chassisText(), jobOf(bent(-0.03), ...more));
    const { hooks } = planOf(pullPlan(inspection, left));
    const needed = 0.012 * 800;
    const { aim } = hooks[0];
    if (aim?.kind !== 'aim') throw new Error('no aim');
    // middle, front and tip moved by over ten times the uncertainty: 180, 490 and 800 beyond the bend
    const recovery = (0.007 * (180 + 490 + 800)) / 3;
    expect(aim.fromMm).toBeCloseTo(needed + recovery, 1);
    expect(aim.toMm).toBeCloseTo(needed + recovery, 1);
  });

  it('says that no spring-back was seen where there was no pull', () => {
    const plan = planned(bent(-0.02));
    expect(planOf(plan).hooks[0].aim).toEqual({ kind: 'none', why: 'not-seen' });
    expect(planText(plan, jobFrom('file:///j', parseText(jobOf(bent(-0.02))))).join('\n')).toContain(
      'to its mark, not past it',
    );
  });
});

describe('no plan', () => {
  const why = (plan: PullPlan) => (plan.kind === 'unknown' ? plan.why : plan.kind);

  it('for a part whose points are all within tolerance', () => {
    expect(planned(bent(-0.0005)).kind).toBe('within');
  });

  it('for a part that must not be straightened: its rule', () => {
    expect(planned(bent(-0.02), 'steel: press-hardened, straighten: never')).toMatchObject({
      kind: 'rule',
      why: 'never',
    });
    expect(planned(bent(-0.02), 'steel: press-hardened')).toMatchObject({
      kind: 'rule',
      why: 'press-hardened',
    });
    const kink = '  - observe: kink\n    part: front-rail.L\n    at: 2210\n';
    expect(planned(bent(-0.02), 'steel: high-strength, straighten: minor', kink)).toMatchObject({
      kind: 'rule',
      why: 'kinked',
    });
    expect(planned(bent(-0.02), 'steel: high-strength, straighten: minor').kind).toBe('plan');
    expect(planned(bent(-0.02), 'steel: high-strength, straighten: freely', kink).kind).toBe('plan');
    const inspection = inspectionOf(
      chassisText('straighten: minor, section: [2450, 2700], reference: manual 31'),
      jobOf(bent(-0.02), kink),
    );
    expect(planEntryLines(inspection, left)).toEqual([]);
    expect(planReport(inspection, left)).toContain('Renew it by manual 31');
    expect(planReport(inspection, left)).toContain('A cut is allowed between length 2450 mm and 2700 mm.');
  });

  it('before the base is settled', () => {
    const twoBodies: Displacement = (id) =>
      controlIds.slice(0, 5).includes(id) ? [0, 0, 40] : bent(-0.02)(id);
    expect(why(planned(twoBodies))).toContain('is not settled');
  });

  it('while the part is under tension, or was worked on after it was read, or renewed', () => {
    const pull = `  - pull: out\n    part: ${left}\n    chains: [{ hook: tip-lower.L, direction: [0, 1, 0] }]\n`;
    expect(why(planned(bent(-0.02), undefined, pull))).toContain('under tension');
    expect(why(planned(bent(-0.02), undefined, pull, '  - release: all\n'))).toContain('worked on after');
    expect(why(planned(bent(-0.02), undefined, `  - replace: ${left}\n`))).toContain('renewed after');
  });

  it('from a reading that found the part sound before it was pulled', () => {
    const pull = `  - pull: out\n    part: ${left}\n    chains: [{ hook: tip-lower.L, direction: [0, 1, 0] }]\n`;
    expect(why(planned(bent(0), undefined, pull))).toContain('under tension');
    expect(why(planned(bent(0), undefined, pull, '  - release: all\n'))).toContain('worked on after');
  });

  it('for a part that was never read, or that the chassis does not have, or from broken text', () => {
    const inspection = inspectionOf(chassisText(), jobOf(bent(-0.02)));
    expect(why(pullPlan(inspection, 'front-rail.R'))).toContain('measure it first');
    expect(why(pullPlan(inspection, 'wing.L'))).toContain('no part wing.L');
    expect(why(planned(bent(-0.02), undefined, '  - measure: [\n'))).toContain('has errors');
  });

  it('from an older reading where the newest left the point out', () => {
    const more = measureText('again', [...controlIds, 'root-lower.L', 'root-upper.L'], bent(-0.02));
    expect(why(planned(bent(-0.02), undefined, more))).toMatch(
      /was out in “as received” and was not read since/,
    );
  });

  it('from a reading that no damage explains', () => {
    expect(why(planned((id) => (id === 'tip-lower.L' ? [0, -880, 0] : [0, 0, 0])))).toContain(
      'look at that reading first',
    );
    const far = planOf(planned((id) => (id === 'tip-lower.L' ? [0, -150, 0] : [0, 0, 0])));
    expect(far.suspicious).toEqual(['tip-lower.L']);
  });
});

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
    const report = planReport(await inspectionOfSample(job)) ?? '';
    expect(report).toMatch(
      /at rail-tip-upper\.L pull left \(outboard\), square to the centreline, level with the floor/i,
    );
    expect(report).toMatch(
      /at rail-tip-lower\.L pull right \(inboard\), square to the centreline, level with the floor/i,
    );
    expect(report).toMatch(/a couple against the twist \(4\.\d° ±0\.\d° top leans right\)/);
    expect(report).toMatch(
      /Hold front-rail\.L at length 2\d\d\d mm or farther rearward: straight metal, before the bend/,
    );
    expect(report).toMatch(
      /Under load take rail-tip-upper\.L \d+\.\d to \d+\.\d mm from where it stands now/,
    );
    expect(report).toMatch(/Keep rail-tip-lower\.L at its mark/);
    expect(report).toMatch(
      /read all 10 points of front-rail\.L, both levels at every place \(.*\), and the 14 control points/,
    );
    for (const caution of ['maker', 'tether', 'irbags', 'high voltage', 'No heat on front-rail.L'])
      expect(report).toContain(caution);
    expect(report.indexOf('CAUTION')).toBeLessThan(report.indexOf('hook and pull'));
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
    expect(entry.holds).toMatchObject([{ kind: 'part', atMm: 2203 }]);
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
    expect(plan.hold).toEqual({ kind: 'last-straight', placesMm: [-420, 860], why: 'none' });
    expect(planEntryLines(analysis.inspection, 'sill.L')).toContain(
      '  hold: [{ part: sill.L, at: -420 }, { part: sill.L, at: 860 }]',
    );
  });
});

describe('in inches', () => {
  it('writes places and moves in inches', () => {
    const inches = chassisText()
      .replace('vehicle:', 'units: inch\nvehicle:')
      .replace(
        /\[(-?[\d.]+), (-?[\d.]+), (-?[\d.]+)\]/g,
        (_, ...n) =>
          `[${n
            .slice(0, 3)
            .map((x) => Number(x) / 25.4)
            .join(', ')}]`,
      );
    const job = jobOf(bent(-0.02))
      .replace('uncertainty: 0.3', 'uncertainty: 0.0118')
      .replace('order:', 'units: inch\norder:')
      .replace(
        /\[(-?[\d.]+), (-?[\d.]+), (-?[\d.]+)\]/g,
        (_, ...n) =>
          `[${n
            .slice(0, 3)
            .map((x) => (Number(x) / 25.4).toFixed(5))
            .join(', ')}]`,
      );
    const inspection = inspectionOf(inches.replace('build: 0.3', 'build: 0.0118'), job);
    const lines = planEntryLines(inspection, left).join('\n');
    expect(lines).toMatch(/hold: \[\{ part: front-rail\.L, at: 83\.9 \}\]/);
    expect(lines).toMatch(/tip-lower\.L 0\.6\d\d in left \(outboard\) ±0\.0\d\d/);
  });
});
