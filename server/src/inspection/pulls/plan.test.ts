import { describe, expect, it } from 'vitest';
import { dot, length } from '../../geometry/vector';
import {
  chassisText,
  controlIds,
  type Displacement,
  inspectionOf,
  jobText,
  measureText,
  railIds,
} from '../../testing/pulled-rail';
import { planEntryLines, planText } from '../../wording/job-plan/plan-lines';
import { holdText } from '../../wording/job-plan/step-hold-words';
import type { Inspection } from '../job/inspect';
import { type PullPlan, pullPlan } from './plan';

import { bent, ids, jobOf, left, planned, planOf, twisted } from './plan.fixture';

const saidOf = (plan: PullPlan, inspection: Inspection): string =>
  planText(plan, inspection).join(' ').replace(/\s+/g, ' ');

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
    expect(hold.place.straightToMm).toBeLessThanOrEqual(hold.bendBetweenMm[0]);
    expect(hold.place.straightToMm).toBeGreaterThan(hold.bendBetweenMm[0] - 1);
    expect(hold.bendBetweenMm[0]).toBeLessThan(hold.bendMm - 38);
  });

  it('holds at the interval’s end where that is short, else back at a place that was read, if a hold there still does its work', () => {
    const held = (slope: number, read: readonly string[] = ids) => {
      const job = jobText([measureText('as received', read, bent(slope))]);
      const { hold } = planOf(pullPlan(inspectionOf(chassisText(), job), left));
      if (hold.kind !== 'before-bend') throw new Error(hold.kind);
      return { ...hold.place, widthMm: hold.bendBetweenMm[1] - hold.bendBetweenMm[0] };
    };
    const short = held(-0.04);
    expect(short.widthMm).toBeLessThan(80);
    expect(short.atMm).toBe(short.straightToMm);
    const wide = held(-0.016);
    expect(wide.widthMm).toBeGreaterThan(80);
    expect(wide).toMatchObject({ atMm: 2070, towards: -1 });
    // 2070 was not read: 1760 still holds, unless the bend is over 600 mm off
    expect(
      held(
        -0.012,
        ids.filter((id) => !id.startsWith('rear-lower') && !id.startsWith('rear-upper')),
      ),
    ).toMatchObject({ atMm: 1760 });
  });

  it('without a declared bend holds behind the last station that is straight, which may hide some of it', () => {
    // only the tip station is off: with one station beyond it place and slope of a bend cannot be told apart
    const plan = planOf(planned((id) => (id.startsWith('tip') && id.endsWith('.L') ? [0, 9, 0] : [0, 0, 0])));
    expect(plan.hold).toMatchObject({
      kind: 'last-straight',
      places: [{ atMm: 2380, straightToMm: 2690, towards: -1 }],
    });
    expect(holdText([plan], 'mm')).toBe(
      'front-rail.L at length 2380 mm or farther rearward (straight as read up to 2690 mm; where the bend starts is not known, so the hold stands farther back)',
    );
  });

  it('without any place behind the last straight one asks for a hold on the body too', () => {
    const plan = planOf(
      planned((id) => (railIds('L').includes(id) && !id.startsWith('root') ? [0, 9, 0] : [0, 0, 0])),
    );
    expect(plan.hold).toMatchObject({ kind: 'last-straight', places: [{ atMm: 1760, straightToMm: 1760 }] });
    expect(holdText([plan], 'mm')).toContain(
      '1760 mm is the only place there that was read as straight: hold the body behind it too',
    );
  });

  it('is none where both sides are off by the same large amount: the sheet is to be looked at', () => {
    const both = (ofLeft: number, ofRight: number) =>
      pullPlan(
        inspectionOf(
          chassisText(),
          jobText([
            measureText('as received', [...controlIds, ...railIds('L'), ...railIds('R')], (id) =>
              id.startsWith('tip-lower') ? [id.endsWith('.L') ? ofLeft : ofRight, 0, 0] : [0, 0, 0],
            ),
          ]),
        ),
        left,
      );
    expect(both(120, 120)).toMatchObject({
      kind: 'unknown',
      why: expect.stringMatching(
        /^tip-lower\.L and its other side .* over 100\.0 mm.*: look at the sheet first$/,
      ),
    });
    expect(both(120, 140).kind).toBe('plan');
    expect(both(90, 90).kind).toBe('plan');
  });

  it('never holds where a point is outside, be it pushed along the part or read so poorly that it hardly shows', () => {
    const pushed = planOf(
      planned((id) => (id.startsWith('tip') && id.endsWith('.L') ? [-9, 0, 0] : [0, 0, 0])),
    );
    expect(pushed.hold).toMatchObject({
      kind: 'last-straight',
      places: [{ atMm: 2380, straightToMm: 2690 }],
    });
    const poor = jobText(
      [measureText('as received', ids, (id) => (id === 'tip-upper.L' ? [0, 0, 9] : [0, 0, 0]))],
      'instrument: { name: tape, uncertainty: 2.6 }',
    );
    const plan = planOf(pullPlan(inspectionOf(chassisText(), poor), left));
    expect(plan.hold).toMatchObject({ kind: 'last-straight', places: [{ atMm: 2380, straightToMm: 2690 }] });
  });

  it('on a part that is off everywhere holds on the body behind it', () => {
    const plan = planOf(planned((id) => (railIds('L').includes(id) ? [0, 9, 0] : [0, 0, 0])));
    expect(plan.hold).toEqual({
      kind: 'not-on-part',
      bendMm: null,
      body: { axis: 0, towards: -1 },
    });
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

  /** Pulled from 0.03 of the way to 0.005, back to 0.012; the points that were read under load. */
  const pulledOnce = (underLoad: readonly string[], ...between: string[]) =>
    inspectionOf(
      chassisText(),
      jobOf(
        bent(-0.03),
        `  - pull: out\n    part: ${left}\n    chains: [{ hook: tip-lower.L, direction: [0, 1, 0] }]\n`,
        measureText('under load', underLoad, bent(-0.005)),
        '  - relieve: all\n  - release: all\n',
        ...between,
        measureText('after', ids, bent(-0.012)),
      ),
    );
  const aimOf = (inspection: Inspection) => planOf(pullPlan(inspection, left)).hooks[0].aim;
  const needed = 0.012 * 800;

  it('aims no farther than the needed move and what came back before at the hook itself, not on the whole part', () => {
    const aim = aimOf(pulledOnce(railIds('L')));
    if (aim?.kind !== 'aim') throw new Error('no aim');
    // the tip stands 800 beyond the bend: 0.007 of that came back. The mean over the part would be 3.4 mm
    expect(aim.fromMm).toBeCloseTo(needed + 0.007 * 800, 1);
    expect(aim.toMm).toBeCloseTo(needed + 0.007 * 800, 1);
    expect(aim.carriedFrom).toEqual([]);
  });

  it('counts of what came back only what goes the way of the chain, and no pull another way', () => {
    // pulled straight left; what is left to go is as much down, then mostly down
    const left45 = (up: number) =>
      inspectionOf(
        chassisText(),
        jobOf(
          bent(-0.03, up),
          `  - pull: out\n    part: ${left}\n    chains: [{ hook: tip-lower.L, direction: [0, 1, 0] }]\n`,
          measureText('under load', railIds('L'), bent(-0.005, up)),
          '  - relieve: all\n  - release: all\n',
          measureText('after', ids, bent(-0.012, up)),
        ),
      );
    const aim = aimOf(left45(0.012));
    if (aim?.kind !== 'aim') throw new Error('no aim');
    expect(aim.recoveryMm[1]).toBeCloseTo(0.007 * 800 * Math.SQRT1_2, 1);
    expect(aimOf(left45(0.05))).toEqual({ kind: 'none', why: 'not-seen' });
  });

  it('carries what came back along the part from the bend, where the hook was not read under load', () => {
    const inspection = pulledOnce(railIds('L').filter((id) => !id.startsWith('tip')));
    const aim = aimOf(inspection);
    if (aim?.kind !== 'aim') throw new Error('no aim');
    // from 490 beyond the bend to 800; the bend starts between about 2155 and 2208
    expect(aim.carriedFrom).toEqual(['front-lower.L']);
    expect(aim.recoveryMm[0]).toBeGreaterThan((0.007 * 490 * 860) / 550);
    expect(aim.recoveryMm[0]).toBeLessThan(0.007 * 800);
    expect(aim.recoveryMm[1]).toBeGreaterThan(0.007 * 800);
    expect(aim.recoveryMm[1]).toBeLessThan((0.007 * 490 * 780) / 470);
    expect(aim.fromMm).toBeCloseTo(needed + aim.recoveryMm[0], 6);
    expect(saidOf(pullPlan(inspection, left), inspection)).toContain(
      'carried along the part from front-lower.L by the distance from the bend',
    );
  });

  it('aims at nothing beyond the mark where what came back cannot be carried to the hook', () => {
    // 180 beyond the bend: what is doubtful about its start would count more than four times
    const tooNear = aimOf(pulledOnce(['middle-lower.L', 'middle-upper.L']));
    expect(tooNear).toEqual({ kind: 'none', why: 'elsewhere' });
    // the tip moved as one piece: no bend to count from
    const moved = inspectionOf(
      chassisText(),
      jobText([
        measureText('as received', ids, (id) => (railIds('L').includes(id) ? [0, -30, 0] : [0, 0, 0])),
        `  - pull: out\n    part: ${left}\n    chains: [{ hook: tip-lower.L, direction: [0, 1, 0] }]\n`,
        measureText('under load', ['front-lower.L'], () => [0, -5, 0]),
        '  - release: all\n',
        measureText('after', ids, (id) =>
          id === 'tip-lower.L' ? [0, -14, 0] : railIds('L').includes(id) ? [0, -12, 0] : [0, 0, 0],
        ),
      ]),
    );
    expect(aimOf(moved)).toEqual({ kind: 'none', why: 'elsewhere' });
    const text = saidOf(pullPlan(moved, left), moved);
    expect(text).toContain('how far it springs back was seen at other points only');
    expect(text).toContain('to its mark, not past it');
  });

  it('says that no spring-back was seen where there was no pull', () => {
    const plan = planned(bent(-0.02));
    expect(planOf(plan).hooks[0].aim).toEqual({ kind: 'none', why: 'not-seen' });
    expect(saidOf(plan, inspectionOf(chassisText(), jobOf(bent(-0.02))))).toContain(
      'to its mark, not past it',
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
    expect(lines).toMatch(/hold: \[\{ part: front-rail\.L, at: 81\.4 \}\]/);
    expect(lines).toMatch(/tip-lower\.L 0\.6\d\d in left \(outboard\) ±0\.0\d\d/);
  });
});
