import { describe, expect, it } from 'vitest';
import {
  chassisText,
  controlIds,
  type Displacement,
  inspectionOf,
  jobText,
  measureText,
  railIds,
  referenceOf,
} from '../../testing/pulled-rail';
import { planLines } from '../../wording/job-plan/plan-words';
import { type PullPlan, pullPlan } from './plan';

const left = 'front-rail.L';
const ids = [...controlIds, ...railIds('L')];
const bent =
  (slope: number): Displacement =>
  (id) =>
    railIds('L').includes(id) ? [0, slope * Math.max(0, referenceOf(id)[0] - 2200), 0] : [0, 0, 0];

function planOf(plan: PullPlan): Extract<PullPlan, { kind: 'plan' }> {
  if (plan.kind !== 'plan') throw new Error(JSON.stringify(plan.kind === 'unknown' ? plan.why : plan.kind));
  return plan;
}

describe('where a part is held, by more than one reading', () => {
  it('does not forget straight metal that an earlier full reading saw once the tip alone was read again', () => {
    const tips: Displacement = (id) => (id.startsWith('tip') && id.endsWith('.L') ? [0, 9, 0] : [0, 0, 0]);
    const tipAlone = [...controlIds, 'tip-lower.L', 'tip-upper.L'];
    const read = (between: string) =>
      planOf(
        pullPlan(
          inspectionOf(
            chassisText(),
            jobText([
              measureText('as received', ids, tips),
              between,
              measureText('tip again', tipAlone, tips),
            ]),
          ),
          left,
        ),
      );
    const plan = read('');
    expect(plan.hold).toMatchObject({ kind: 'last-straight', places: [{ atMm: 2690, towards: -1 }] });
    const told = planLines(plan, 'mm').hold;
    expect(told).toContain('the last place that was read as straight, in “as received”;');
    expect(told).not.toContain('worked on since');
    // pulled in between it may have moved, and that is said
    const pulled = planLines(read(`  - pull: out\n    part: ${left}\n  - release: all\n`), 'mm').hold;
    expect(pulled).toContain('It was worked on since: read that place again before you rely on it.');
    // new metal was not seen by the reading before it
    const renewed = read(`  - section: ${left}\n    at: 2000\n`);
    expect(renewed.hold).toMatchObject({ kind: 'last-straight', places: [{ atMm: 1760 }] });
    expect(read(`  - replace: ${left}\n`).hold).toMatchObject({ kind: 'not-on-part', bendMm: null });
  });

  it('says by which readings a bend is known, and that they contradict each other', () => {
    const pull = `  - pull: out\n    part: ${left}\n  - release: all\n`;
    const told = (second: Displacement) =>
      planLines(
        planOf(
          pullPlan(
            inspectionOf(
              chassisText(),
              jobText([
                measureText('as received', ids, bent(-0.02)),
                pull,
                measureText('again', ids, second),
              ]),
            ),
            left,
          ),
        ),
        'mm',
      ).hold;
    expect(told(bent(-0.015))).toMatch(
      /^Hold front-rail\.L at .* straight metal, before the bend, which starts at .* by all of “as received” and “again”\./,
    );
    const elsewhere: Displacement = (id) =>
      railIds('L').includes(id) ? [0, -0.03 * Math.max(0, referenceOf(id)[0] - 2400), 0] : [0, 0, 0];
    expect(told(elsewhere)).toMatch(
      /straight by every reading of it\. Where the bend starts they do not agree: “as received” and “again” have it anywhere between \d+ and \d+ mm\. Read the part again at four places or more\./,
    );
  });
});
