import { describe, it } from 'vitest';
import { carChassis, filesOf, jobOn, measured } from '../../testing/car';
import { found, silent } from '../testing/kit';

const rule = 'base/weak';
const rear = (mark: string) => `  - measure: as received
${mark}    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]
      rail-tip-lower.L: [3012, 448, 210]
      latch: [3050, 0, 780]`;
const arm = 'instrument: { name: arm, uncertainty: 0.8 }';

describe(rule, () => {
  it('lists the points and the control point that would help most', () =>
    found(
      rule,
      filesOf(
        jobOn(
          rear(
            '#   ^^^^^^^ warning: base/weak too weak for 2 points judged by it. The alignment alone leaves this uncertainty: rail-tip-lower.L ±2.9 in height and latch ±2.8 in height\n',
          ),
          arm,
        ),
      ),
    ));

  it('names the help, for the points of the scope only', () =>
    found(
      rule,
      filesOf(
        jobOn(
          rear(
            '#   ^^^^^^^ warning: base/weak too weak for a point judged by it. The alignment alone leaves this uncertainty: rail-tip-lower.L\n',
          ),
          `${arm}\nscope: [front-rail]`,
        ),
      ),
    ));

  it('says nothing again of a point whose doubt was said of the same alignment', () =>
    found(
      rule,
      filesOf(
        jobOn(
          `${rear('#   ^^^^^^^ warning: base/weak Next time also read cowl-hole, both sides: that leaves \n')}
  - measure: later
    readings: { latch: [3050, 0, 780] }
  - measure: another point
#   ^^^^^^^ warning: base/weak for a point judged by it. The alignment alone leaves this uncertainty: rail-tip-upper.L
    readings: { rail-tip-upper.L: [3012, 452, 352] }`,
          arm,
        ),
      ),
    ));

  it('says what would have been needed of a measure that work has made history', () =>
    found(
      rule,
      filesOf(
        jobOn(
          `${rear('#   ^^^^^^^ warning: base/weak Next time also read cowl-hole, both sides: that leaves \n')}
  - replace: apron.L`,
          arm,
        ),
      ),
    ));

  it('says that no point of the file would do', () =>
    found(
      rule,
      filesOf(
        jobOn(
          rear(
            '#   ^^^^^^^ warning: base/weak No other point of the chassis file would help enough with u = 0.8 mm\n',
          ),
          arm,
        ),
        carChassis.replace(/(cowl-hole|tunnel-front)(.*), base: true/g, '$1$2'),
      ),
    ));

  it('is silent about a base that carries its points', () =>
    silent(rule, filesOf(jobOn(measured('      latch: [3050, 0, 780]')))));
});
