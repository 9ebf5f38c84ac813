import { describe, it } from 'vitest';
import { filesOf, jobOn, measured, soundBase } from '../../testing/car';
import { found, silent } from '../testing/kit';

const rule = 'base/moved';
const movedRows = soundBase.replace('[-350, -455, 90]', '[-340.7, -455, 96]');
const stage = (mark: string) => `  - measure: as received
#   ^^^^^^^ warning: base/moved ${mark}
    readings:
${movedRows}`;

describe(rule, () => {
  it('says how far and which way, and leaves the point out', () =>
    found(
      rule,
      filesOf(
        jobOn(
          stage('left out of the base: floor-rear.R is 9.3 mm forward and 6.0 mm up from its place (±0.'),
        ),
      ),
    ));

  it('keeps a point that `base:` lists', () =>
    found(
      rule,
      filesOf(
        jobOn(
          stage('floor-rear.R is 9.3 mm forward and 6.0 mm up from its place'),
          'instrument: { uncertainty: 0.2 }\nbase: [floor-front.L, floor-front.R, floor-rear.L, floor-rear.R, tunnel-front.L, cowl-hole.L, cowl-hole.R]',
        ),
      ),
    ));

  it('says it once, not again where the alignment is taken over', () =>
    found(
      rule,
      filesOf(jobOn(`${stage('floor-rear.R')}\n  - measure: more\n    readings: { latch: [3050, 0, 780] }`)),
    ));

  it('shows what distances alone have elsewhere, and judges it', () => {
    const tram = (shift: number, mark = '') => {
      const places = {
        'floor-front.L': [1200, 420, 95],
        'floor-front.R': [1200, -420, 95],
        'floor-rear.L': [-350 + shift, 455, 90],
        'floor-rear.R': [-350, -455, 90],
        'cowl-hole.L': [1480, 612, 905],
        'cowl-hole.R': [1480, -612, 905],
      };
      const targets = {
        latch: [3050, 0, 780],
        'rail-tip-lower.L': [3012, 448, 210],
        'strut-top.R': [2250, -561, 830],
      };
      const rows = Object.entries(places).flatMap(([from, a]) =>
        Object.entries(targets).map(
          ([to, b]) =>
            `      - [${from}, ${to}, ${Math.hypot(...a.map((each, k) => each - b[k])).toFixed(1)}]`,
        ),
      );
      return jobOn(
        `  - measure: tram\n${mark}    spans:\n${rows.join('\n')}`,
        'instrument: { name: tram, span-uncertainty: 0.5 }',
      );
    };
    return Promise.all([
      found(
        rule,
        filesOf(
          tram(
            12,
            '#   ^^^^^^^ warning: base/moved the control point floor-rear.L has moved and is left out of the base: it stands 11.9 mm forward from its place (±1.6)\n',
          ),
        ),
      ),
      silent(rule, filesOf(tram(0))),
      silent('reading/suspect-distance', filesOf(tram(12))),
    ]);
  });

  it('is silent about a sound base', () => silent(rule, filesOf(jobOn(measured('')))));
});
