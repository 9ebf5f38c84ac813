import { describe, it } from 'vitest';
import { filesOf, jobOn, measured } from '../../testing/car';
import { found, silent } from '../testing/kit';

const rule = 'base/scale';
const times = (factor: number, mark = '') =>
  measured('')
    .replace(/-?\d+(?=[,\]])/g, (number) => String(Number(number) * factor))
    .replace('received\n', `received\n${mark}`);
const mark = (message: string) => `#   ^^^^^^^ error: base/scale ${message}\n`;

describe(rule, () => {
  it('names the nearest change of units', async () => {
    await found(
      rule,
      filesOf(
        jobOn(
          times(
            1 / 25.4,
            mark(
              '25.40 times too small, so nothing about it is judged. That is 25.4, inches read as mm: if the instrument counts inches, write `units: inch`',
            ),
          ),
        ),
      ),
    );
    await found(rule, filesOf(jobOn(times(0.1, mark('centimetres read as mm')))));
    await found(rule, filesOf(jobOn(times(0.001, mark('metres read as mm')))));
    await found(rule, filesOf(jobOn(times(10, mark('10, tenths of a mm')))));
    await found(
      rule,
      filesOf(jobOn(times(1, mark('if the instrument counts mm, write `units: mm`')), 'units: inch')),
    );
  });

  it('says so where no change of units fits', () =>
    found(
      rule,
      filesOf(
        jobOn(
          times(
            1.2,
            mark('1.20 times too large, so nothing about it is judged. No usual mistake of units gives that'),
          ),
        ),
      ),
    ));

  it('says so where all have one reading, and names no size', async () => {
    const at = (reading: string) =>
      measured('')
        .replace(/\[-?\d+, -?\d+, -?\d+\]/g, reading)
        .replace(
          'received\n',
          `received\n${mark('all have the same reading, so nothing about it is judged')}`,
        );
    await found(rule, filesOf(jobOn(at('[0, 0, 0]'))));
    await found(rule, filesOf(jobOn(at('[1200, -300.4, 450]'))));
  });

  it('is silent under a twentieth, and about one control point that was misread', async () => {
    await silent(rule, filesOf(jobOn(times(1.04))));
    await silent(rule, filesOf(jobOn(measured('').replace('floor-front.L: [1200', 'floor-front.L: [7200'))));
  });
});
