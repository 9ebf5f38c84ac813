import { describe, it } from 'vitest';
import { expectMarked, expectSilent, jobOn, measured, soundBase } from '../measured-car.fixture';

const rule = 'base/moved';
const movedRows = soundBase.replace('[-350, -455, 90]', '[-340.7, -455, 96]');
const stage = (mark: string) => `  - measure: as received
#   ^^^^^^^ warning: base/moved ${mark}
    readings:
${movedRows}`;

describe(rule, () => {
  it('says how far and which way, and leaves the point out', () =>
    expectMarked(
      rule,
      jobOn(stage('left out of the base: floor-rear.R is 9.3 mm forward and 6.0 mm up from its place (±0.')),
    ));

  it('keeps a point that `base:` lists', () =>
    expectMarked(
      rule,
      jobOn(
        stage('floor-rear.R is 9.3 mm forward and 6.0 mm up from its place'),
        'instrument: { uncertainty: 0.2 }\nbase: [floor-front.L, floor-front.R, floor-rear.L, floor-rear.R, tunnel-front.L, cowl-hole.L, cowl-hole.R]',
      ),
    ));

  it('says it once, not again where the alignment is taken over', () =>
    expectMarked(
      rule,
      jobOn(`${stage('floor-rear.R')}\n  - measure: more\n    readings: { latch: [3050, 0, 780] }`),
    ));

  it('is silent about a sound base', () => expectSilent(rule, jobOn(measured(''))));
});
