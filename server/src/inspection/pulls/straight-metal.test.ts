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
import { holdText } from '../../wording/job-plan/step-hold-words';
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
    expect(plan.hold).toMatchObject({
      kind: 'last-straight',
      places: [{ atMm: 2380, straightToMm: 2690, towards: -1 }],
    });
    const told = holdText([plan], 'mm');
    expect(told).toContain('straight as read in “as received” up to 2690 mm;');
    expect(told).not.toContain('worked on since');
    // pulled in between it may have moved, and that is said
    const pulled = holdText([read(`  - pull: out\n    part: ${left}\n  - release: all\n`)], 'mm');
    expect(pulled).toContain('worked on since, so read it again before you rely on it');
    // new metal was not seen by the reading before it
    const renewed = read(`  - section: ${left}\n    at: 2000\n`);
    expect(renewed.hold).toMatchObject({ kind: 'last-straight', places: [{ atMm: 1760 }] });
    expect(read(`  - replace: ${left}\n`).hold).toMatchObject({ kind: 'not-on-part', bendMm: null });
  });

  it('says by which readings a bend is known, and that they contradict each other', () => {
    const pull = `  - pull: out\n    part: ${left}\n  - release: all\n`;
    const told = (second: Displacement) =>
      holdText(
        [
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
        ],
        'mm',
      );
    expect(told(bent(-0.015))).toMatch(
      /^front-rail\.L at .* the bend, which starts anywhere from .* by “as received” and “again”/,
    );
    const elsewhere: Displacement = (id) =>
      railIds('L').includes(id) ? [0, -0.03 * Math.max(0, referenceOf(id)[0] - 2400), 0] : [0, 0, 0];
    expect(told(elsewhere)).toMatch(
      /straight by every reading; “as received” and “again” do not agree where the bend starts: anywhere from \d+ to \d+ mm; read the part again at four places or more/,
    );
  });
});
