import { describe, expect, it } from 'vitest';
import { pullPlan } from '../../inspection/pulls/plan';
import { filesOf, inspectionOf, jobOn, measured } from '../../testing/car';
import { planLines } from '../../wording/job-plan/plan-words';
import { springBackSummary } from '../../wording/spring-back-words';
import { analysed } from '../testing/analysed';
import { found, silent } from '../testing/kit';

const rule = 'base/carried';
type Triple = readonly [number, number, number];

const tip = (mm: number, slid = 0) => `      rail-tip-upper.L: [3012, ${452 + mm + slid}, 352]`;
const received = measured(`${tip(-20)}\n      strut-top.R: [2250, -561, 830]\n      latch: [3050, 0, 780]`);
const pull = `  - pull: left at rail-tip-upper.L
    part: front-rail.L
    hook: rail-tip-upper.L
    direction: [0, 1, 0]`;
const stage = (name: string, rows: string, mark = '', setUp = '') =>
  `  - measure: ${name}\n${mark}${setUp}    readings:\n${rows}`;
/** One or two control points are taken for a stage with the alignment of the one before only so. */
const same = '    set-up: same\n';
const peak = stage('under load', tip(6));
const release = '  - release: all';
const shown = '#   ^^^^^^^ warning: base/carried';
/** As received, pulled, read under load, released; then what is read. */
const pulled = (last: string) => jobOn([received, pull, peak, release, last].join('\n'));
/** Rows of points that stand where they stood, or all off alike on the bench. */
const rows = (points: Record<string, Triple>, [x, y, z]: Triple = [0, 0, 0]) =>
  Object.entries(points).map(([id, [a, b, c]]) => `      ${id}: [${a + x}, ${b + y}, ${c + z}]`);
const witnesses: Record<string, Triple> = {
  'strut-top.R': [2250, -561, 830],
  'floor-rear.L': [-350, 455, 90],
};
const all = (...parts: string[]) => parts.join('\n');

describe(rule, () => {
  it('shows an alignment from before a pull and its release, whatever `set-up` says', async () => {
    for (const setUp of ['', same])
      await found(
        rule,
        filesOf(
          pulled(
            stage(
              'after release',
              tip(0),
              `${shown} uses that of “as received”, from before a pull or its release: the car may have moved on the bench\n`,
              setUp,
            ),
          ),
        ),
      );
  });

  it('shows it across other work, and says it of every stage until one is confirmed', () =>
    found(
      rule,
      filesOf(
        jobOn(
          all(
            received,
            '  - heat: front-rail.L\n    to: 200 C\n    for: 60 s',
            stage('then', tip(0), `${shown} from before work on the car\n`),
            stage('again', tip(0), `${shown}\n`),
            measured(tip(0), 'with a base'),
            stage('last', tip(1)),
          ),
        ),
      ),
    ));

  it('is silent under load, without work between, and where the stage has a base of its own', async () => {
    await silent(rule, filesOf(jobOn(all(received, stage('more', tip(0)), pull, peak))));
    await silent(rule, filesOf(pulled(measured(tip(0), 'after release'))));
  });

  it('is lifted by two points off the worked parts, far apart, where they stood before', async () => {
    const confirmed = pulled(stage('after release', all(tip(0), ...rows(witnesses)), '', same));
    await silent(rule, filesOf(confirmed));
    expect(inspectionOf(confirmed).stages.at(-1)).toMatchObject({
      provisional: false,
      alignment: { carried: { confirmed: true, agreeing: ['strut-top.R', 'floor-rear.L'] } },
    });
    // and it is known again from there on
    await silent(rule, filesOf(all(confirmed.trimEnd(), stage('later', tip(0)))));
  });

  it('is not lifted by one point, by two near each other, on the worked part, or off', async () => {
    const expectShown = (more: readonly string[], message = '') =>
      found(
        rule,
        filesOf(pulled(stage('after release', all(tip(0), ...more), `${shown} ${message}\n`, same))),
      );
    await expectShown(rows({ latch: [3050, 0, 780] }), 'latch alone does not show that it stayed.');
    // 460 mm apart
    await expectShown(rows({ 'floor-front.L': [1200, 420, 95], 'tunnel-front.L': [905, 188, 242] }));
    // 1.3 m apart, but the rail was pulled
    await expectShown(rows({ 'rail-root-upper.L': [1760, 445, 328], 'rail-tip-lower.L': [3012, 448, 210] }));
    // 3 u of a difference of two readings of 0.2 mm is 0.85 mm
    await expectShown(
      rows(witnesses, [0, 0.9, 0]),
      'strut-top.R and floor-rear.L are not where they were before',
    );
  });

  it('is not lifted by points that are so doubtful that they would agree with anything', () =>
    found(
      rule,
      filesOf(
        pulled(
          stage('after release', all(tip(0), ...rows(witnesses, [0, 3, 0])), `${shown}\n`, same),
        ).replace('uncertainty: 0.2', 'uncertainty: 1.2'),
      ),
    ));

  it('makes the stage provisional: a slid car is not within, nor told to be pulled', async () => {
    const slid = pulled(stage('after release', tip(-7, 7)));
    const { stages } = inspectionOf(slid);
    const [judged] = stages.at(-1)!.points;
    expect(judged.verdict).toBe('within');
    expect(stages.map(({ provisional }) => provisional)).toEqual([false, false, true]);
    const out = await analysed(filesOf(pulled(stage('after release', tip(-9)))), 'w.readings.yaml');
    const message = out.findings.find(
      (each) => each.rule === 'reading/outside' && each.severity === 'error',
    )!.message;
    expect(message).toContain('Provisional: by the alignment from before the pull.');
    expect(message).not.toContain('Move it');
  });

  it('leaves plan and spring-back, by the alignment from before the pull', () => {
    const words = 'by the alignment from before the pull';
    const inspection = inspectionOf(pulled(stage('after release', tip(-9))));
    const plan = pullPlan(inspection, 'front-rail.L');
    expect(plan.kind === 'plan' && planLines(plan, inspection).move).toContain(words);
    expect(springBackSummary(inspection, 'front-rail.L')).toContain(words);
    const own = inspectionOf(pulled(measured(tip(-9), 'after release')));
    const planned = pullPlan(own, 'front-rail.L');
    expect(planned.kind === 'plan' && planLines(planned, own).move).not.toContain(words);
    expect(springBackSummary(own, 'front-rail.L')).not.toContain(words);
    // that nothing is out is no plan's to say
    expect(pullPlan(inspectionOf(pulled(stage('after release', tip(0)))), 'front-rail.L').kind).toBe(
      'unknown',
    );
  });

  it('says that the car moved where two control points are off together, not that they have to move', async () => {
    const controls: Record<string, Triple> = {
      'floor-front.L': [1200, 420, 95],
      'floor-rear.R': [-350, -455, 90],
    };
    const kept = (shift: Triple, mark: string) =>
      jobOn(all(received, stage('more', all(tip(0), ...rows(controls, shift)), mark, same)));
    const text = kept(
      [0, 7, 0],
      `${shown} the car or the instrument has moved since “as received”: control points have moved together (floor-front.L 7.0 mm left (outboard) and floor-rear.R 7.0 mm left (inboard))\n`,
    );
    await found(rule, filesOf(text));
    const { findings } = await analysed(filesOf(text), 'w.readings.yaml');
    expect(findings.filter(({ message }) => message.includes('Move it'))).toEqual([]);
    expect(pullPlan(inspectionOf(text), 'front-rail.L').kind).toBe('unknown');
    // of the stage after it as well
    expect(inspectionOf(all(text.trimEnd(), stage('next', tip(0)))).stages.at(-1)!.provisional).toBe(true);
    await silent(rule, filesOf(kept([0, 0.3, 0], '')));
    // one that moved away from the other is metal
    await silent(
      rule,
      filesOf(kept([0, 0, 0], '').replace('floor-front.L: [1200,', 'floor-front.L: [1209,')),
    );
  });
});
