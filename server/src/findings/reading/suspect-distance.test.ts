import { describe, it } from 'vitest';
import { filesOf, jobOn } from '../../testing/car';
import { found, silent } from '../testing/kit';

const rule = 'reading/suspect-distance';

/** Distances from the latch, where it belongs, to control points: in the plane of symmetry left and right agree. */
const distance = (x: number, y: number, z: number): string => Math.hypot(3050 - x, y, 780 - z).toFixed(1);

const job = (wrong: number, mark = '') =>
  jobOn(
    `  - measure: with the tram
    spans:
      - [floor-front.L, latch, ${distance(1200, 420, 95)}]
      - [floor-front.R, latch, ${distance(1200, 420, 95)}]
      - [floor-rear.L, latch, ${distance(-350, 455, 90)}]
      - [floor-rear.R, latch, ${(Number(distance(-350, 455, 90)) + wrong).toFixed(1)}]
${mark}      - [tunnel-front.L, latch, ${distance(905, 188, 242)}]
      - [cowl-hole.L, latch, ${distance(1480, 612, 905)}]
      - [cowl-hole.R, latch, ${distance(1480, 612, 905)}]`,
    'instrument: { name: tram, span-uncertainty: 1 }',
  );

describe(rule, () => {
  it('names the distance that does not fit the others', () =>
    found(
      rule,
      filesOf(
        job(
          15,
          '#       ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning: reading/suspect-distance The likeliest to be wrong is floor-rear.R to latch, 1\n',
        ),
      ),
    ));

  it('is silent where they agree', () => silent(rule, filesOf(job(0))));
});
