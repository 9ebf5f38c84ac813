import { describe, expect, it } from 'vitest';
import { planReport } from '../../commands/plan';
import {
  chassisText,
  controlIds,
  type Displacement,
  inspectionOf,
  measureText,
} from '../../testing/pulled-rail';
import { planEntryLines } from '../../wording/job-plan/plan-lines';
import { type PullPlan, pullPlan } from './plan';
import { bent, ids, jobOf, left, planned, planOf } from './plan.fixture';

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
    // with the step of the whole plan: the same reasoning about the cut
    const detail = planReport(inspection, left) ?? '';
    expect(detail).toMatch(/^renew front-rail\.L: do not pull on it$/m);
    const page = planReport(inspection) ?? '';
    const step = page.slice(page.indexOf('  why '), page.indexOf('manual 31'));
    expect(step).toMatch(/cut {6}none: renew the part; the allowed band/);
    expect(detail).toContain(step);
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

  it('is not kept back by a hold that cannot be read, nor by a remark', () => {
    const pull = (hold: string) =>
      `  - pull: out\n    part: ${left}\n    chains: [{ hook: tip-lower.L, direction: [0, 1, 0] }]\n    hold: ${hold}\n`;
    for (const hold of ['{ part: front-rail.L, at: 2000 }', '{ part: front-rail.L }', '[{ at: 2000 }]'])
      expect(
        planned(
          bent(-0.03),
          undefined,
          pull(hold),
          '  - release: all\n',
          measureText('after', ids, bent(-0.02)),
        ).kind,
      ).toBe('plan');
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
