import { describe, expect, it } from 'vitest';
import { planReport } from '../../commands/plan';
import {
  chassisText,
  controlIds,
  inspectionOf,
  jobText,
  measureText,
  railIds,
} from '../../testing/pulled-rail';
import { pullPlan } from './plan';

const left = 'front-rail.L';
const ids = [...controlIds, ...railIds('L')];
/** Bent sideways from 2070 on: the tip is farthest off, then the front. */
const bent = measureText('as received', ids, (id) => {
  const mm = { front: -12, tip: -18, middle: -6 }[id.split('-')[0]] ?? 0;
  return [0, id.endsWith('.L') && railIds('L').includes(id) ? mm : 0, 0];
});
const seen = (at: string, what = 'corrosion') => `  - observe: ${what}\n    part: ${left}\n${at}`;

function planOf(...timeline: string[]) {
  const inspection = inspectionOf(chassisText(), jobText(timeline));
  const plan = pullPlan(inspection, left);
  if (plan.kind !== 'plan') throw new Error(plan.kind);
  const page = (planReport(inspection) ?? '').replace(/\s+/g, ' ');
  return { hook: plan.hooks[0].move.id, page };
}

describe('a hook', () => {
  it('stands at least 200 mm from where corrosion was seen', () => {
    expect(planOf(bent).hook).toMatch(/^tip-/);
    expect(planOf(bent, seen('    at: 2900\n')).hook).toMatch(/^front-/);
    expect(planOf(bent, seen('    at: 2801\n')).hook).toMatch(/^middle-/);
    expect(planOf(bent, seen('    at: 2200\n')).hook).toMatch(/^tip-/);
    expect(planOf(bent, seen('    at: 2900\n', 'gap')).hook).toMatch(/^tip-/);
    expect(planOf(bent, seen('    at: 2900\n')).page).not.toContain('tear out');
  });

  it('is warned of where no other point can be hooked', () => {
    const { hook, page } = planOf(bent, seen(''));
    expect(page).toContain(`Corrosion was seen on ${left}, at the hook ${hook}: a clamp can tear out.`);
    expect(page.indexOf('tear out')).toBeGreaterThan(page.indexOf('WARNING'));
    const all = [2300, 2690, 3000].map((at) => seen(`    at: ${at}\n`));
    expect(planOf(bent, ...all).page).toMatch(
      /Corrosion was seen on front-rail\.L at length 3000 mm, at the hook tip-/,
    );
  });

  it('is no point whose reading the file ignores, while another one can be', () => {
    const ignored = (which: RegExp) =>
      bent.replace(/^( +)(\w+-\w+\.L: .*)$/gm, (line, _, row) =>
        which.test(row) ? `${line} # framewright-ignore reading/outside: the bracket was bent before` : line,
      );
    expect(planOf(ignored(/^tip/)).hook).toMatch(/^front-/);
    expect(planOf('  - note: first\n', ignored(/^tip/)).hook).toMatch(/^front-/);
    expect(planOf(ignored(/^tip/)).page).not.toContain('is ignored');
    const { hook, page } = planOf(ignored(/^(tip|front|middle|rear|root)/));
    expect(hook).toMatch(/^tip-/);
    expect(page).toContain(`reading of ${hook} is ignored in the file (“the bracket was bent before”)`);
  });
});
