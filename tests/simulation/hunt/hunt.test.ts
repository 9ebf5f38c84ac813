import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { damages } from './damage';
import { huntJob } from './job';
import { judgedHunt } from './judged';
import { huntPrinted, talliedHunt } from './print';
import { chassisOf, jobOf } from './product';

const indices = Array.from({ length: 4 * damages.length }, (_, i) => i);
const jobs = indices.map((index) => huntJob(7, index));

/** Confidently wrong, and ambiguous before witnesses had a say (`results.md`). */
const worst = [
  [815, 2511],
  [4711, 1104],
  [4711, 1840],
] as const;

describe('jobs on bodies laid out by chance', () => {
  it('are read without a problem, and are the same each time', () => {
    for (const [index, { chassis, readings }] of jobs.entries()) {
      expect(chassisOf(chassis).problems).toEqual([]);
      expect(jobOf(readings).problems).toEqual([]);
      expect(huntJob(7, index).readings).toBe(readings);
    }
  });

  it('have 4 to 14 control points, and a scope that is judged', () => {
    for (const { traits, truth } of jobs) {
      expect(traits.controlCount).toBeGreaterThanOrEqual(4);
      expect(traits.controlCount).toBeLessThanOrEqual(14);
      expect(truth.size).toBeGreaterThan(0);
    }
  });

  it('are told rightly where nothing happened, and never where the frame is mirrored', () => {
    const judged = jobs.map((job) => ({ ...job.traits, ...judgedHunt(job) }));
    const right = judged.filter(({ sound, frame, settled }) => sound && frame === 'right' && settled);
    const figures = right.reduce((sum, each) => sum + each.figures, 0);
    const covered = right.reduce((sum, each) => sum + each.covered, 0);
    expect(figures).toBeGreaterThan(100);
    expect(covered).toBeGreaterThan(0.88 * figures);
    expect(judged.filter(({ frame, settled }) => frame === 'mirrored' && settled)).toEqual([]);
  });

  it('are counted by what happened', () => {
    const tally = talliedHunt(indices, 7);
    expect(tally.of('hunt', 'all', 'settled').of).toBe(indices.length);
    expect(tally.of('hunt', 'none', 'settled').of).toBe(4);
    expect(huntPrinted(tally, indices.length, 7)).toContain('| none | 3 / 4 | 0 / 4 |');
  });

  for (const [seed, index] of worst)
    it(`are kept where they are told most wrongly: seed ${seed}, job ${index}`, () => {
      const kept = (kind: string) =>
        readFileSync(path.join(import.meta.dirname, 'worst', `${seed}-${index}.${kind}.yaml`), 'utf8');
      const { chassis, readings, movedIds } = huntJob(seed, index);
      expect(kept('chassis')).toBe(chassis);
      expect(kept('readings')).toBe(
        `framewright: readings/1\nchassis: ${seed}-${index}.chassis.yaml\n${readings}`,
      );
      expect(movedIds.size).toBeGreaterThan(1);
    });
});
