import { describe, expect, it } from 'vitest';
import { carChassis } from '../../testing/car';
import { teal } from '../../testing/teal';
import { chassisFiles, found, foundBy, silent } from '../testing/kit';

const rule = 'chassis/undecidable';
/** A floor that carries its rails badly: its front hole far back. */
const short = (mark = '') =>
  carChassis
    .replaceAll(/(cowl-hole|tunnel-front)(.*), base: true/g, '$1$2')
    .replace('[1200, 420, 95]', '[700, 420, 95]')
    .replace(/( {2}rail-tip-upper.*\n)/, `$1${mark}`);
const mark =
  '# ^^^^^^^^^^^^^^ information: chassis/undecidable with all control points read and u = 0.5 mm, the alignment places rail-tip-upper.L to ±2.8 in height; to decide it at a limit of ±3.0 it may be ±2.0 at most. Mark more control points: cowl-hole, both sides, would do\n';

const settings = (u: number) => ({
  '.framewright.yaml': `framewright: settings/1\nadvise-uncertainty: ${u}\n`,
});

describe(rule, () => {
  it('names the worst point once, and what would do', () => found(rule, chassisFiles(short(mark))));

  it('is silent where all can be decided, and of a better instrument', async () => {
    await silent(rule, chassisFiles(carChassis));
    expect(await foundBy(rule, short(), settings(0.1))).toEqual([]);
    expect(await foundBy(rule, carChassis, settings(0.95))).toHaveLength(1);
  });

  it('is silent of a control point that the others hold badly', async () => {
    // its floor is held badly, its rails well enough
    expect(await foundBy(rule, teal, settings(0.2))).toEqual([]);
    expect(await foundBy(rule, teal, settings(0.5))).toEqual([
      { message: expect.stringContaining('places rail-tip.'), fixes: [] },
    ]);
  });

  it('says where nothing in the file would do', async () => {
    const bare = short()
      .split('\n')
      .filter((line) => !/cowl-hole|tunnel-front|strut-top|latch/.test(line))
      .join('\n');
    expect(await foundBy(rule, bare)).toEqual([
      { message: expect.stringContaining('Mark or add control points farther out'), fixes: [] },
    ]);
  });

  it('is silent of a reading that is too coarse itself, of files that hold no frame, and of the parent’s points', async () => {
    const coarse = { '.framewright.yaml': 'framewright: settings/1\nadvise-uncertainty: 3\n' };
    expect(await foundBy(rule, carChassis, coarse)).toEqual([]);
    expect(await foundBy(rule, carChassis.replaceAll(', base: true', ''))).toEqual([]);
    const child = 'framewright: chassis/1\nextends: ./car.chassis.yaml\nvehicle: Marten estate\n';
    expect(await foundBy(rule, child, { 'car.chassis.yaml': short() })).toEqual([]);
  });
});
